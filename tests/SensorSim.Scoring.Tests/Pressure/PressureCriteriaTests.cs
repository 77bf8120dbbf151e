// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Pressure;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests.Pressure;

/// <summary>Published criteria of pressure errors.</summary>
public class PressureCriteriaTests
{
    // The rule of 85 % within 10 mmHg, recomputed outside of this project; rows are whole mmHg of the mean, columns tenths. The printed table of ISO 81060-2 has
    // 6.95 at 0 and 4.79 at 5.0 (secondary source).
    private static readonly double[][] s_table =
    [
        [6.95, 6.95, 6.94, 6.94, 6.94, 6.93, 6.92, 6.91, 6.90, 6.89],
        [6.87, 6.86, 6.84, 6.82, 6.80, 6.78, 6.76, 6.73, 6.71, 6.68],
        [6.65, 6.62, 6.58, 6.55, 6.51, 6.47, 6.43, 6.39, 6.34, 6.30],
        [6.25, 6.20, 6.14, 6.09, 6.03, 5.97, 5.91, 5.84, 5.78, 5.71],
        [5.64, 5.56, 5.49, 5.41, 5.33, 5.24, 5.16, 5.07, 4.99, 4.90],
    ];

    [Test]
    public void SdLimit_EveryTenthOfTheTable_IsThePrintedLimit()
    {
        for (int mean = 0; mean < 50; mean++)
        {
            Assert.That(SubjectMeanLimit.SdLimitMmhg(mean / 10.0), Is.EqualTo(s_table[mean / 10][mean % 10]).Within(0.00501), $"{mean / 10.0}");
        }

        Assert.That(SubjectMeanLimit.SdLimitMmhg(5), Is.EqualTo(4.79).Within(0.03), "the printed end of the table; the rule gives 4.81");
        Assert.That(SubjectMeanLimit.SdLimitMmhg(-2.5), Is.EqualTo(SubjectMeanLimit.SdLimitMmhg(2.5)));
        Assert.That(SubjectMeanLimit.SdLimitMmhg(10), Is.Zero);
    }

    [Test]
    public void Criteria_OfSubjects_TakeReadingsAndMeansApart()
    {
        // Subjects at −6, 0, 6 mmHg on average, each ±2 about that.
        PressureCriteria c = PressureCriteria.Of([Of(-8, -4), Of(-2, 2), Of(4, 8), default])!;
        Assert.That((c.Count, c.SubjectCount, c.MeanMmhg), Is.EqualTo((6L, 3, 0.0)));
        Assert.That(c.SdMmhg, Is.EqualTo(Math.Sqrt((64 + 16 + 4 + 4 + 16 + 64) / 5.0)).Within(1e-12));
        Assert.That((c.SubjectSdMmhg, c.MeetsFirst, c.MeetsSecond), Is.EqualTo(((double?)6, (bool?)true, (bool?)true)));

        // 7 instead of 6: above 6.95.
        c = PressureCriteria.Of([Of(-7, -7), Of(0, 0), Of(7, 7)])!;
        Assert.That((c.SubjectSdMmhg, c.MeetsFirst, c.MeetsSecond), Is.EqualTo(((double?)7, (bool?)true, (bool?)false)));

        // A mean of 5.5 misses both, whatever the spread.
        c = PressureCriteria.Of([Of(5.5, 5.5), Of(5.5, 5.5)])!;
        Assert.That((c.MeetsFirst, c.MeetsSecond), Is.EqualTo(((bool?)false, (bool?)false)));
        c = PressureCriteria.Of([Of(1)])!;
        Assert.That((c.MeetsFirst, c.MeetsSecond), Is.EqualTo(((bool?)null, (bool?)null)));
        Assert.That(PressureCriteria.Of([]), Is.Null);
    }

    // Shares in per cent of 100 readings at the edges of each grade, by the published table.
    [TestCase(60, 85, 95, PressureGrade.A)]
    [TestCase(59, 85, 95, PressureGrade.B)]
    [TestCase(60, 84, 95, PressureGrade.B)]
    [TestCase(60, 85, 94, PressureGrade.B)]
    [TestCase(50, 75, 90, PressureGrade.B)]
    [TestCase(49, 75, 90, PressureGrade.C)]
    [TestCase(40, 65, 85, PressureGrade.C)]
    [TestCase(40, 65, 84, PressureGrade.D)]
    [TestCase(90, 95, 84, PressureGrade.D)]
    public void Bands_SharesAtTheEdge_GiveThePublishedGrade(int within5, int within10, int within15, PressureGrade grade)
    {
        within10 = Math.Max(within5, within10);
        within15 = grade == PressureGrade.D && within15 < within10 ? within10 = within15 : within15;
        var bands = new PressureBands();
        for (int i = 0; i < 100; i++)
        {
            bands.Add(i < Math.Min(within5, within15) ? -5 : i < within10 ? 10 : i < within15 ? -15 : 15.001);
        }

        Assert.That((bands.Within15, bands.Grade), Is.EqualTo(((long)within15, (PressureGrade?)grade)));
    }

    [TestCase(5, PressureGrade.A)]
    [TestCase(5.01, PressureGrade.B)]
    [TestCase(6, PressureGrade.B)]
    [TestCase(6.99, PressureGrade.C)]
    [TestCase(7, PressureGrade.D)]
    public void GradeOfMeanAbsolute_AtTheEdges_IsThePublishedGrade(double mmhg, PressureGrade grade) =>
        Assert.That(PressureBands.GradeOfMeanAbsolute(mmhg), Is.EqualTo(grade));

    [Test]
    public void Bands_ErrorOfFiveWithRounding_CountsAsFive()
    {
        var bands = new PressureBands();
        bands.Add(125.3 - 120.3 + 1e-13);
        Assert.That((bands.Within5, bands.Share(bands.Within5)), Is.EqualTo((1L, (double?)1)));
    }

    // Truth rises 120 to 140; estimates repeat 120, follow half, follow in full.
    [TestCase(0, 0.0, 0.0)]
    [TestCase(0.5, 0.75, 0.5)]
    [TestCase(1, 1.0, 1.0)]
    [TestCase(2, 0.0, 2.0)]
    public void Tracking_ShareOfChangeFollowed_GivesSkillAndSlope(double share, double skill, double slope)
    {
        var pairs = new PairSums();
        foreach (double change in new double[] { 0, 5, 10, 20 })
        {
            pairs.Add(120 + change, 120 + (share * change));
        }

        var tracking = new ChangeTracking();
        tracking.Add(pairs, 120);

        // Mean square of "no change": (25 + 100 + 400) / 4.
        Assert.That(tracking.NoChangeRms, Is.EqualTo(Math.Sqrt(131.25)).Within(1e-9));
        Assert.That((tracking.Skill, tracking.Slope), Is.EqualTo(((double?)skill, (double?)slope)).Using<(double?, double?)>(
            (a, b) => Math.Abs(a.Item1!.Value - b.Item1!.Value) < 1e-9 && Math.Abs(a.Item2!.Value - b.Item2!.Value) < 1e-9));
        Assert.That(tracking.BeatsNoChange, Is.EqualTo(share is 0.5 or 1));
        Assert.That(tracking.Correlation, Is.EqualTo(share == 0 ? null : 1.0).Within(1e-9));
    }

    [Test]
    public void Tracking_NothingChanged_IsUndefined()
    {
        var pairs = new PairSums();
        pairs.Add(120, 121);
        var tracking = new ChangeTracking();
        tracking.Add(pairs, 120);
        Assert.That((tracking.Skill, tracking.Slope, tracking.BeatsNoChange), Is.EqualTo(((double?)null, (double?)null, (bool?)null)));
    }

    private static Moments Of(params double[] errors) => Moments.Of(errors);
}
