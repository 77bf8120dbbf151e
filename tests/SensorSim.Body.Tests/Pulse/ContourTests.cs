// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Site;
using SensorSim.Body.Subject;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>The shape follows its knobs.</summary>
public sealed class ContourTests
{
    private static readonly PulseSite[] s_sites = [PulseSite.Finger, PulseSite.Wrist, PulseSite.Ear, PulseSite.Chest];

    // Stiffness index = height / time from systolic to diastolic peak, reflection index = diastolic / systolic height above the foot
    // (Millasseau et al., Clin Sci 103:371, 2002, from memory; 1.75 m / 0.25 s = 7.0 m/s).
    [Test]
    public void Indices_MeasuredOnASteadyTrain_AreThoseOfTheKnobs(
        [Values(0.21, 0.22, 0.23, 0.243, 0.26, 0.28, 0.3, 0.32, 0.34)] double apart, [Values(40, 45, 50, 60, 70, 80)] double reflection, [Values(1.5, 1.7, 2)] double height)
    {
        double stiffness = height / apart;
        var sum = new PulseSum();
        PulseLandmarks p = PulseSolver.Steady(sum, new PulseContour(PulseSite.Finger, stiffness, reflection, height), 1, out double foot);
        Assert.That(height / (p.DiastolicPeakSeconds - p.SystolicPeakSeconds), Is.EqualTo(stiffness).Within(2).Percent);
        Assert.That(100 * (sum.At(p.DiastolicPeakSeconds).Value - foot) / p.HeightUnits, Is.EqualTo(reflection).Within(1));
    }

    [Test]
    public void Indices_TextbookExample_IsAQuarterOfASecond() =>
        Assert.That(new PulseContour(PulseSite.Finger, 7, 50, 1.75).PeakToPeakSeconds, Is.EqualTo(0.25).Within(1e-12));

    // Usual indices are 5 to 12 m/s (from memory); with the highest the two waves are one.
    [TestCase(12)]
    [TestCase(15)]
    public void Notch_OfStiffArteries_IsNone(double stiffness)
    {
        foreach (PulseSite site in s_sites)
        {
            PulseLandmarks p = PulseSolver.Steady(new PulseSum(), new PulseContour(site, stiffness, 50, 1.7), 1, out _);
            Assert.That(p.HasFoot);
            Assert.That(p.DicroticNotchSeconds, Is.NaN);
            Assert.That(p.DiastolicPeakSeconds, Is.NaN);
        }
    }

    // Crest time (foot to systolic peak) 100 to 200 ms in young adults, longer with stiffness (from memory).
    [Test]
    public void CrestTime_AtRest_IsUsual([Values("finger", "wrist", "ear", "chest")] string site, [Values(5, 7, 9, 12)] double stiffness)
    {
        PulseContour contour = new(new KeyValues().Set(SiteKeys.Site, site).Set(PulseKeys.StiffnessIndexMPerS, stiffness));
        PulseLandmarks p = PulseSolver.Steady(new PulseSum(), contour, 60.0 / 65, out _);
        Assert.That(p.SystolicPeakSeconds - p.FootTangentSeconds, Is.InRange(0.100, 0.200));
    }

    [Test]
    public void Sites_FromFingerToChest_GetSlowerAndRounder()
    {
        double Crest(PulseSite site) => Of(site, p => p.SystolicPeakSeconds - p.FootTangentSeconds);
        double Bend(PulseSite site)
        {
            var sum = new PulseSum();
            PulseLandmarks p = PulseSolver.Steady(sum, new PulseContour(site, 7, 50, 1.7), 1, out _);
            return sum.At(p.FootSecondDerivativeSeconds).Curvature / p.HeightUnits;
        }

        Assert.That(s_sites.OrderBy(Crest), Is.EqualTo(new[] { PulseSite.Finger, PulseSite.Ear, PulseSite.Wrist, PulseSite.Chest }));
        Assert.That(s_sites.OrderByDescending(Bend), Is.EqualTo(new[] { PulseSite.Finger, PulseSite.Ear, PulseSite.Wrist, PulseSite.Chest }));
    }

    [Test]
    public void Notch_AtRest_IsVisibleAtFingerAndWrist()
    {
        foreach ((PulseSite site, double least) in new[] { (PulseSite.Finger, 0.05), (PulseSite.Wrist, 0.02) })
        {
            var sum = new PulseSum();
            PulseLandmarks p = PulseSolver.Steady(sum, new PulseContour(site, 7, 50, 1.7), 60.0 / 65, out _);
            Assert.That(sum.At(p.DiastolicPeakSeconds).Value - sum.At(p.DicroticNotchSeconds).Value, Is.GreaterThan(least * p.HeightUnits));
        }
    }

    // Ejection time 413 − 1.7 × rate ms (Weissler 1968, from memory): 60 bpm 311, 100 bpm 243, 150 bpm 158; held beyond 30 and 180 bpm.
    [TestCase(60, 311.0)]
    [TestCase(100, 243.0)]
    [TestCase(150, 158.0)]
    [TestCase(20, 362.0)]
    [TestCase(240, 107.0)]
    public void Scale_AnyRate_IsThatOfEjectionTime(double rateBpm, double ejectionMs)
    {
        double scale = PulseContour.Scale(rateBpm);
        Assert.That(scale, Is.EqualTo(ejectionMs / 311).Within(1e-12));
        PulseContour contour = new(PulseSite.Wrist, 8, 60, 1.8);
        PulseBeat at60 = contour.Lay(3, 1, 0.5);
        PulseBeat here = contour.Lay(3, scale, 0.5);
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            Assert.That(here[i].ToPeakSeconds, Is.EqualTo(scale * at60[i].ToPeakSeconds).Within(1e-12));
            Assert.That(here[i].StartSeconds - 3, Is.EqualTo(scale * (at60[i].StartSeconds - 3)).Within(1e-12));
            Assert.That(here[i].Height, Is.EqualTo(at60[i].Height));
        }
    }

    [Test]
    public void Wave_RoundEachStart_IsSmoothToTheSecondDerivative()
    {
        PulseBeat beat = new PulseContour(PulseSite.Finger, 7, 50, 1.7).Lay(0, 1, 1);
        var sum = new PulseSum();
        sum.SetOwn(beat);
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            PulsePoint before = sum.At(beat[i].StartSeconds - 1e-9);
            PulsePoint after = sum.At(beat[i].StartSeconds + 1e-9);
            Assert.That(after.Value, Is.EqualTo(before.Value).Within(1e-7));
            Assert.That(after.Slope, Is.EqualTo(before.Slope).Within(1e-5));
            Assert.That(after.Curvature, Is.EqualTo(before.Curvature).Within(1e-4));
        }
    }

    [Test]
    public void Contour_OfAScenario_TakesItsKnobs()
    {
        KeyValues values = new KeyValues().Set(SiteKeys.Site, "chest").Set(PulseKeys.StiffnessIndexMPerS, 9).Set(PulseKeys.ReflectionIndexPercent, 70)
            .Set(SubjectKeys.HeightM, 1.9);
        PulseBeat expected = new PulseContour(PulseSite.Chest, 9, 70, 1.9).Lay(1, 1, 1);
        PulseBeat actual = new PulseContour(values).Lay(1, 1, 1);
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            Assert.That(actual[i], Is.EqualTo(expected[i]));
        }

        Assert.That(() => PulseSite.Named("toe"), Throws.TypeOf<ArgumentOutOfRangeException>());
        Assert.That(SiteKeys.Site.Choices.Select(PulseSite.Named), Is.Unique);
    }

    private static double Of(PulseSite site, Func<PulseLandmarks, double> what) =>
        what(PulseSolver.Steady(new PulseSum(), new PulseContour(site, 7, 50, 1.7), 1, out _));
}
