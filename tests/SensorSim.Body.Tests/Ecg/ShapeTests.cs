// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>How a beat is laid from its plan and the knobs.</summary>
public sealed class ShapeTests
{
    private static readonly double s_edge = Math.Sqrt(2 * Math.Log(50));

    // QT from QTc (row by row the published formulas solved for QT; the corrected values computed from the formulas as printed:
    // Bazett 1920, Fridericia 1920, Framingham: Sagie et al. 1992, Hodges 1983).
    [TestCase(400, 1000, 400.00, 400.00, 400.00, 400.00)]
    [TestCase(350, 857, 378.07, 368.47, 372.02, 367.52)]
    [TestCase(360, 750, 415.69, 396.23, 398.50, 395.00)]
    [TestCase(340, 600, 438.94, 403.11, 401.60, 410.00)]
    [TestCase(440, 1200, 401.66, 414.06, 409.20, 422.50)]
    public void Qt_EachRule_GivesTheQtThatCorrectsToTheKnob(
        double qtMs, double rrMs, double bazett, double fridericia, double framingham, double hodges)
    {
        (string Rule, double Qtc)[] rules = [("bazett", bazett), ("fridericia", fridericia), ("framingham", framingham), ("hodges", hodges)];
        foreach ((string rule, double qtc) in rules)
        {
            EcgBeat beat = Lay(new KeyValues().Set(EcgKeys.QtRule, rule).Set(EcgKeys.QtcMs, qtc), Plans.Normal(5, rrMs * 1e-3));
            Assert.That((beat[EcgBeat.T].EndSeconds - beat[EcgBeat.Q].OnsetSeconds) * 1e3, Is.EqualTo(qtMs).Within(0.012), rule);
        }
    }

    [Test]
    public void Qt_StraightLinesAtHighRates_AreHeldAt150Ms()
    {
        EcgBeat beat = Lay(new KeyValues().Set(EcgKeys.QtRule, "hodges"), Plans.Normal(5, 60.0 / 250));
        Assert.That(beat[EcgBeat.T].EndSeconds - beat[EcgBeat.Q].OnsetSeconds, Is.EqualTo(0.15).Within(1e-12));
    }

    [TestCase(0.120)]
    [TestCase(0.240)]
    [TestCase(0.400)]
    public void Pr_Planned_IsTheTimeFromPOnsetToQrsOnset(double prSeconds)
    {
        foreach (BeatClass kind in new[] { BeatClass.Normal, BeatClass.Wide, BeatClass.Paced, BeatClass.AtrialPremature })
        {
            EcgBeat beat = Lay(new KeyValues(), Plans.Of(kind, 3, 0.8, hasP: true) with { PrSeconds = prSeconds });
            Assert.That(beat[EcgBeat.Q].OnsetSeconds - beat[EcgBeat.P].OnsetSeconds, Is.EqualTo(prSeconds).Within(1e-12), $"{kind}");
        }
    }

    [TestCase(BeatClass.VentricularPremature, 150, 1)]
    [TestCase(BeatClass.VentricularRun, 150, 1)]
    [TestCase(BeatClass.VentricularEscape, 150, -1)]
    [TestCase(BeatClass.Wide, 150, 1)]
    [TestCase(BeatClass.Paced, 160, -1)]
    public void WideClasses_AsLaid_AreWideWithoutPAndHaveADiscordantT(BeatClass kind, double qrsMs, int sign)
    {
        // At least 120 ms is wide (AHA/ACCF/HRS 2009, from memory); T opposite to the QRS, no preceding P (textbooks).
        EcgBeat beat = Lay(new KeyValues(), Plans.Of(kind, 7, 0.9));
        Assert.That((beat[EcgBeat.S].EndSeconds - beat[EcgBeat.Q].OnsetSeconds) * 1e3, Is.EqualTo(qrsMs).Within(1e-9));
        Assert.That(beat[EcgBeat.R].CentreSeconds, Is.EqualTo(7));
        Assert.That(beat[EcgBeat.R].OnsetSeconds, Is.GreaterThan(beat[EcgBeat.Q].OnsetSeconds));
        Assert.That(beat[EcgBeat.R].EndSeconds, Is.LessThan(beat[EcgBeat.S].EndSeconds));
        Assert.That(Math.Sign(beat[EcgBeat.R].Millivolts), Is.EqualTo(sign));
        Assert.That(Math.Sign(beat[EcgBeat.T].Millivolts), Is.EqualTo(-sign));
        Assert.That(beat[EcgBeat.P].Millivolts, Is.Zero);

        // The duration is also that of the sum: 5 % of the peak is left within it, nothing to speak of outside.
        double peak = Math.Abs(Plans.Voltage(beat, 7));
        Assert.That(Math.Abs(Plans.Voltage(beat, beat[EcgBeat.Q].OnsetSeconds)), Is.LessThan(0.03 * peak));
        Assert.That(Math.Abs(Plans.Voltage(beat, beat[EcgBeat.Q].OnsetSeconds + 0.02)), Is.GreaterThan(0.05 * peak));

        // Without its T: what T has there is its own.
        EcgBeat noT = beat;
        noT[EcgBeat.T] = beat[EcgBeat.T] with { Millivolts = 0 };
        Assert.That(Math.Abs(Plans.Voltage(noT, beat[EcgBeat.S].EndSeconds)), Is.LessThan(0.03 * peak));
        Assert.That(Math.Abs(Plans.Voltage(noT, beat[EcgBeat.S].EndSeconds - 0.025)), Is.GreaterThan(0.05 * peak));
    }

    [Test]
    public void WideQrs_LongerThanTheNarrowOne_EndsTLaterByTheDifference()
    {
        EcgBeat narrow = Lay(new KeyValues(), Plans.Of(BeatClass.JunctionalEscape, 7, 0.9));
        EcgBeat wide = Lay(new KeyValues().Set(EcgKeys.VentricularQrsMs, 180), Plans.Of(BeatClass.VentricularEscape, 7, 0.9));
        double Jt(EcgBeat beat) => beat[EcgBeat.T].EndSeconds - beat[EcgBeat.S].EndSeconds;
        Assert.That(Jt(wide), Is.EqualTo(Jt(narrow)).Within(1e-12));
        Assert.That(narrow[EcgBeat.P].Millivolts, Is.Zero);
        Assert.That((narrow[EcgBeat.S].EndSeconds - narrow[EcgBeat.Q].OnsetSeconds) * 1e3, Is.EqualTo(90).Within(1e-9));
    }

    [Test]
    public void AtrialPremature_AsLaid_HasTheNormalQrsAndAnotherP()
    {
        EcgBeat normal = Lay(new KeyValues(), Plans.Normal(2, 0.9));
        EcgBeat premature = Lay(new KeyValues(), Plans.Of(BeatClass.AtrialPremature, 2, 0.9, hasP: true));
        for (int i = EcgBeat.Q; i < EcgBeat.Count; i++)
        {
            Assert.That(premature[i], Is.EqualTo(normal[i]));
        }

        Assert.That(premature[EcgBeat.P].OnsetSeconds, Is.EqualTo(normal[EcgBeat.P].OnsetSeconds).Within(1e-12));
        Assert.That(premature[EcgBeat.P].Millivolts, Is.EqualTo(0.6 * normal[EcgBeat.P].Millivolts).Within(1e-12));
        Assert.That(premature[EcgBeat.P].SigmaSeconds, Is.LessThan(normal[EcgBeat.P].SigmaSeconds));
    }

    [Test]
    public void LayP_ANonConductedP_IsTheSamePByItself()
    {
        var shape = new EcgShape(new KeyValues());
        EcgWave p = shape.Lay(Plans.Normal(2, 0.9))[EcgBeat.P];
        EcgBeat alone = shape.LayP(p.OnsetSeconds, 0);
        Assert.That(alone[EcgBeat.P].CentreSeconds, Is.EqualTo(p.CentreSeconds).Within(1e-12));
        Assert.That(alone[EcgBeat.P] with { CentreSeconds = 0 }, Is.EqualTo(p with { CentreSeconds = 0 }));
        for (int i = EcgBeat.Q; i < EcgBeat.Count; i++)
        {
            Assert.That(alone[i].Millivolts, Is.Zero);
        }
    }

    [TestCase(0.2)]
    [TestCase(-0.15)]
    public void StLevel_60MsAfterJ_IsTheKnob(double mv)
    {
        EcgBeat beat = Lay(new KeyValues().Set(EcgKeys.StLevelMv, mv).Set(EcgKeys.TMv, 0), Plans.Normal(4, 1));
        double j = beat[EcgBeat.S].EndSeconds;
        Assert.That(Plans.Voltage(beat, j + 0.06), Is.EqualTo(mv).Within(1e-9));

        // The level of the QRS onset keeps its place, and R its height within 4 % of the level.
        Assert.That(Math.Abs(Plans.Voltage(beat, beat[EcgBeat.Q].OnsetSeconds - 0.01)), Is.LessThan(0.01));
        Assert.That(beat[EcgBeat.R].Millivolts, Is.EqualTo(1));
    }

    [Test]
    public void TAlternans_EveryOtherBeat_DiffersByTheKnob()
    {
        KeyValues values = new KeyValues().Set(EcgKeys.TAlternansUv, 80).Set(EcgKeys.RespiratoryAmplitudePercent, 20);
        double high = Lay(values, Plans.Normal(1, 1, 0.5, isAlternate: true))[EcgBeat.T].Millivolts;
        double low = Lay(values, Plans.Normal(1, 1, 0.5))[EcgBeat.T].Millivolts;
        Assert.That(high - low, Is.EqualTo(0.080).Within(1e-12));
        Assert.That((high + low) / 2, Is.EqualTo(0.3 * 0.9).Within(1e-12));
    }

    [Test]
    public void Respiration_Amplitude_ScalesEveryWave([Values(-1, 0.4, 1)] double depth)
    {
        EcgBeat rest = Lay(new KeyValues(), Plans.Normal(1, 1));
        EcgBeat beat = Lay(new KeyValues().Set(EcgKeys.RespiratoryAmplitudePercent, 10), Plans.Normal(1, 1, depth));
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            Assert.That(beat[i].Millivolts, Is.EqualTo(rest[i].Millivolts * (1 - (0.1 * depth))).Within(1e-12));
        }
    }

    [Test]
    public void Respiration_Axis_ProjectsEachWaveByItsOwnDirection([Values(-1, 0.4, 1)] double depth)
    {
        // A vector at φ to the lead, turned by δ: cos(φ + δ) / cos φ of its projection at rest.
        double[] degrees = [10, 145, -15, -140, 20, 20];
        KeyValues values = new KeyValues().Set(EcgKeys.StLevelMv, 0.1);
        EcgBeat rest = Lay(values, Plans.Normal(1, 1));
        EcgBeat beat = Lay(values.Copy().Set(EcgKeys.RespiratoryAxisDeg, 12), Plans.Normal(1, 1, depth));
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            double phi = degrees[i] * Math.PI / 180;
            double expected = rest[i].Millivolts * Math.Cos(phi + (12 * depth * Math.PI / 180)) / Math.Cos(phi);
            Assert.That(beat[i].Millivolts, Is.EqualTo(expected).Within(1e-5));
        }
    }

    [TestCase(BeatClass.Normal)]
    [TestCase(BeatClass.Paced)]
    [TestCase(BeatClass.AtrialPremature)]
    public void Polarity_Swapped_TurnsEverythingUpsideDown(BeatClass kind)
    {
        KeyValues values = new KeyValues().Set(EcgKeys.StLevelMv, 0.1).Set(EcgKeys.TAlternansUv, 50).Set(EcgKeys.RespiratoryAxisDeg, 9);
        EcgPlan plan = Plans.Of(kind, 1, 1, hasP: true) with { Depth = 0.3 };
        EcgBeat up = Lay(values, plan);
        EcgBeat down = Lay(values.Copy().Set(EcgKeys.Polarity, "swapped"), plan);
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            Assert.That(down[i], Is.EqualTo(up[i] with { Millivolts = -up[i].Millivolts }));
        }
    }

    [Test]
    public void Shape_Presets_GiveWayToHeightsThatAreSet()
    {
        EcgBeat low = Lay(new KeyValues().Set(EcgKeys.Shape, "low_voltage"), Plans.Normal(1, 1));
        double[] voltage = [.. Enumerable.Range(0, 200).Select(i => Plans.Voltage(low, 0.9 + (i * 1e-3)))];
        Assert.That(voltage.Max() - voltage.Min(), Is.LessThan(0.5), "low voltage: limb-lead QRS below 0.5 mV peak to peak");
        EcgBeat tall = Lay(new KeyValues().Set(EcgKeys.Shape, "tall_t"), Plans.Normal(1, 1));
        Assert.That(tall[EcgBeat.T].Millivolts, Is.EqualTo(1));
        EcgBeat own = Lay(new KeyValues().Set(EcgKeys.Shape, "tall_t").Set(EcgKeys.TMv, 0.3), Plans.Normal(1, 1));
        Assert.That(own[EcgBeat.T].Millivolts, Is.EqualTo(0.3), "set to the default is set");
        KeyValues changing = new KeyValues().Set(EcgKeys.Shape, "tall_t").SetChanges(EcgKeys.TMv, [new CourseChange(10, ChangeKind.Step, 0.2, 0)], []);
        Assert.That(Lay(changing, Plans.Normal(9, 1))[EcgBeat.T].Millivolts, Is.EqualTo(1));
        Assert.That(Lay(changing, Plans.Normal(11, 1))[EcgBeat.T].Millivolts, Is.EqualTo(0.2));
    }

    [Test]
    public void TangentEnd_OfTheTWaveAlone_IsWhereTheSteepestTangentMeetsZero()
    {
        EcgWave t = Lay(new KeyValues(), Plans.Normal(1, 1))[EcgBeat.T];
        double V(double s) => t.Millivolts * Math.Exp(-Math.Pow((s - t.CentreSeconds) / t.SigmaSeconds, 2) / 2);
        const double H = 1e-6;
        double Slope(double s) => (V(s + H) - V(s - H)) / (2 * H);
        double steepest = Enumerable.Range(0, 200_000).Select(i => t.CentreSeconds + (i * 1e-6)).MinBy(Slope);
        Assert.That(t.TangentEndSeconds, Is.EqualTo(steepest - (V(steepest) / Slope(steepest))).Within(2e-6));
        Assert.That(t.TangentEndSeconds, Is.LessThan(t.CentreSeconds + (s_edge * t.SigmaSeconds)));
    }

    private static EcgBeat Lay(KeyValues values, EcgPlan plan) => new EcgShape(values).Lay(plan);
}
