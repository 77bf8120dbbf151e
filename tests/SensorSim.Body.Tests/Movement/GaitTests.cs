// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Site;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Movement;

/// <summary>Walking and running against published and calculated figures.</summary>
public sealed class GaitTests
{
    private const double StandardGravity = 9.80665;

    // A body that bounces by A at f has a peak acceleration of (2π f)² A; figures in g calculated from it, to three digits.
    [TestCase(2.0, 0.03, 0.483)]
    [TestCase(1.8, 0.02, 0.261)]
    [TestCase(2.7, 0.05, 1.467)]
    public void Vertical_OfABounce_HasItsAcceleration(double cadenceHz, double metres, double amplitudeG)
    {
        Assert.That(amplitudeG, Is.EqualTo(Math.Pow(2 * Math.PI * cadenceHz, 2) * metres / StandardGravity).Within(0.0005));
        KeyValues values = Drawn.Steady(cadenceHz > 2.5 ? "running" : "walking")
            .Set(MovementKeys.CadenceHz, cadenceHz).Set(MovementKeys.AmplitudeG, amplitudeG);
        double drawnG = Drawn.Of(values, 200).Line(2, cadenceHz);

        // Back to a way: the line over (2π f)².
        Assert.That(drawnG * StandardGravity / Math.Pow(2 * Math.PI * cadenceHz, 2), Is.EqualTo(metres).Within(0.3).Percent);
    }

    // Steps at the cadence upwards, arm swing at half of it forwards (textbook of gait, from memory); at the trunk steps win forwards too.
    [TestCase("walking", "wrist", 1.6)]
    [TestCase("walking", "finger", 1.9)]
    [TestCase("running", "wrist", 2.9)]
    [TestCase("walking", "chest", 1.9)]
    [TestCase("running", "ear", 2.7)]
    public void Spectrum_Steady_PeaksAtTheCadenceUpwardsAndAtTheArmSwingForwards(string activity, string site, double cadenceHz)
    {
        KeyValues values = Drawn.Steady(activity).Set(MovementKeys.CadenceHz, cadenceHz).Set(SiteKeys.Site, site);
        Drawn drawn = Drawn.Of(values, 200);
        bool isHand = site is "wrist" or "finger";
        Assert.That(drawn.PeakHz(2), Is.EqualTo(cadenceHz).Within(0.0051));
        Assert.That(drawn.PeakHz(0), Is.EqualTo(isHand ? cadenceHz / 2 : cadenceHz).Within(0.0051));
        Assert.That(drawn.PeakHz(1), Is.EqualTo(cadenceHz / 2).Within(0.0051), "sway to the sides");
    }

    // 1.98 ± 0.15 Hz at the wrist (Wu et al., arXiv 2203.10563, 2022); running 2.5 to 3.2 Hz (from memory).
    [TestCase("walking", 1.83, 2.13)]
    [TestCase("running", 2.5, 3.2)]
    public void Cadence_ByDefault_IsInThePublishedRange(string activity, double low, double high)
    {
        var values = new KeyValues().Set(MovementKeys.Activity, activity);
        foreach (ulong seed in new ulong[] { 1, 2, 3, 4, 5 })
        {
            Assert.That(Drawn.Of(values, 300, 50, seed).PeakHz(2), Is.InRange(low, high));
        }
    }

    // Peaks of chest walking 0.2 to 0.5, running 1 to 2 g; wrist walking 0.3 to 0.8, running 1 to 4 g, heel spikes to 8 (from memory).
    [TestCase("chest", "walking", 0.2, 0.5, 1)]
    [TestCase("chest", "running", 1, 2, 3)]
    [TestCase("wrist", "walking", 0.3, 0.8, 1.6)]
    [TestCase("wrist", "running", 1, 4, 8)]
    public void Size_ByDefault_IsInTheRangeOfTheSite(string site, string activity, double low, double high, double mostWithStrikes)
    {
        Drawn drawn = Drawn.Of(new KeyValues().Set(MovementKeys.Activity, activity).Set(SiteKeys.Site, site), 120);
        Assert.That(Drawn.Rms([.. drawn.Z.Select(v => v - 1)]) * Math.Sqrt(2), Is.InRange(low, high), "peak of a sine as strong [g]");
        Assert.That(drawn.Z.Max() - 1, Is.InRange(low, mostWithStrikes));
    }

    [Test]
    public void Size_GivenByTheKnob_HoldsForBothActivitiesAndEverySite()
    {
        foreach (string site in SiteKeys.Site.Choices)
        {
            foreach (string activity in new[] { "walking", "running" })
            {
                KeyValues values = Drawn.Steady(activity).Set(MovementKeys.AmplitudeG, 0.7).Set(SiteKeys.Site, site).Set(MovementKeys.CadenceHz, 2);
                Assert.That(Drawn.Of(values, 100).Line(2, 2), Is.EqualTo(0.7).Within(0.1).Percent, $"{activity}, {site}");
            }
        }
    }

    // The model's lines, heel strike included, against a Fourier integral of what is drawn: the closed form that levels rest on.
    [TestCase("walking", "finger")]
    [TestCase("running", "wrist")]
    public void ReferenceLine_AnyMultiple_IsTheLineThatIsDrawn(string activity, string site)
    {
        KeyValues values = Drawn.Steady(activity).Set(MovementKeys.CadenceHz, 2.5).Set(SiteKeys.Site, site);
        var model = new MovementModel(values, 3);
        Drawn drawn = Drawn.Of(values, 80, 500);
        for (int axis = 0; axis < 3; axis++)
        {
            for (int multiple = 1; multiple <= 24; multiple++)
            {
                model.ReferenceLine(axis, multiple, out double sine, out double cosine);
                double expected = Math.Sqrt((sine * sine) + (cosine * cosine));
                Assert.That(drawn.Line(axis, multiple * 1.25), Is.EqualTo(expected).Within(2e-4 * 2.5), $"axis {axis}, {multiple}");
            }
        }

        model.ReferenceLine(2, 14, out double s, out double c);
        Assert.That(Math.Sqrt((s * s) + (c * c)), Is.GreaterThan(0.002), "the heel strike has lines of its own");
    }

    // A transient of a thirtieth of a second: between 5 and 20 Hz each step adds what the lines of gait do not have.
    [Test]
    public void HeelStrike_WhileRunning_ComesOncePerStep()
    {
        Drawn drawn = Drawn.Of(Drawn.Steady("running").Set(MovementKeys.CadenceHz, 2.5).Set(MovementKeys.AmplitudeG, 2), 40, 200);
        double[] slope = [.. drawn.Z.Zip(drawn.Z.Skip(1), (a, b) => (b - a) * 200)];
        double limit = 0.6 * slope.Max();
        int rises = slope.Zip(slope.Skip(1)).Count(p => p.First < limit && p.Second >= limit);
        Assert.That(rises, Is.EqualTo(100).Within(1), "2.5 steps in a second for 40 s");
    }

    [Test]
    public void Activity_Changing_StartsAtItsTimeAndTakesASecondAndAHalf()
    {
        KeyValues values = Drawn.Steady("rest").SetChanges(MovementKeys.Activity, [(10, "walking"), (30, "rest")]);
        Drawn drawn = Drawn.Of(values, 50);
        Drawn always = Drawn.Of(Drawn.Steady(), 50);
        Assert.That(drawn.Z[..1001], Has.All.EqualTo(1), "still until then");
        double[] differences = [.. drawn.Z[1190..3000].Zip(always.Z[1190..3000], (a, b) => a - b)];
        Assert.That(differences, Has.All.Zero.Within(1e-12), "all of it afterwards, heel strikes of the change gone");
        Assert.That(drawn.Z[3200..], Has.All.EqualTo(1).Within(1e-9), "still again, heel strikes gone");
        Assert.That(drawn.Z[1000..1150].Max(v => Math.Abs(v - 1)), Is.InRange(0.05, 0.6));

        // No jump: no step from sample to sample larger than in steady walking.
        double most = always.Z.Zip(always.Z.Skip(1), (a, b) => Math.Abs(b - a)).Max();
        Assert.That(drawn.Z.Zip(drawn.Z.Skip(1), (a, b) => Math.Abs(b - a)).Max(), Is.LessThanOrEqualTo(most));
    }

    [Test]
    public void Cadence_OnARamp_IsTheIntegralOfItsCourse()
    {
        // 1.5 to 3 Hz over 30 s, then steady: the line after the ramp is at 3 Hz, and half of the ramp's turns came in between.
        KeyValues values = Drawn.Steady().Set(MovementKeys.CadenceHz, 1.5).Set(MovementKeys.AmplitudeG, 0.4)
            .SetChanges(MovementKeys.CadenceHz, [new CourseChange(20, ChangeKind.Ramp, 3, 30)], []);
        Drawn before = Drawn.Of(values, 20);
        Drawn after = Drawn.Of(values, 100, fromSeconds: 50);
        Assert.That(before.PeakHz(2), Is.EqualTo(1.5).Within(0.03));
        Assert.That(after.PeakHz(2), Is.EqualTo(3).Within(0.01));

        // Strikes counted: 1.5 × 20 + (1.5 + 3) / 2 × 30 = 97.5 steps until 50 s. A strike is sharpest in the second difference.
        Drawn run = Drawn.Of(values.Copy().Set(MovementKeys.Activity, "running").Set(MovementKeys.AmplitudeG, 3), 50, 400);
        double[] bend = [.. Enumerable.Range(1, run.Z.Length - 2).Select(i => run.Z[i + 1] - (2 * run.Z[i]) + run.Z[i - 1])];
        double limit = 0.6 * bend.Max();
        Assert.That(bend.Zip(bend.Skip(1)).Count(p => p.First < limit && p.Second >= limit), Is.InRange(96, 99));
    }

    // The traps: steps on the heart rate, and twice as many, whose arm swing is on the heart rate (common knowledge of the trade).
    [TestCase(1, 118.8)]
    [TestCase(2, 60)]
    public void CadencePerBeat_Given_PutsTheStepsOnTheHeartRate(double perBeat, double bpm)
    {
        KeyValues values = Drawn.Steady().Set(HeartKeys.RateBpm, bpm).Set(MovementKeys.CadencePerBeat, perBeat);
        Drawn drawn = Drawn.Of(values, 200);
        Assert.That(drawn.PeakHz(2), Is.EqualTo(perBeat * bpm / 60).Within(0.0051));
        Assert.That(drawn.PeakHz(0), Is.EqualTo(perBeat * bpm / 120).Within(0.0051));
    }

    [Test]
    public void CadencePerBeat_HeartRateChanges_FollowsIt()
    {
        KeyValues values = Drawn.Steady().Set(HeartKeys.RateBpm, 60).Set(MovementKeys.CadencePerBeat, 2)
            .SetChanges(HeartKeys.RateBpm, [new CourseChange(100, ChangeKind.Ramp, 75, 20)], []);
        Assert.That(Drawn.Of(values, 100).PeakHz(2), Is.EqualTo(2).Within(0.011));
        Assert.That(Drawn.Of(values, 100, fromSeconds: 130).PeakHz(2), Is.EqualTo(2.5).Within(0.011));
    }

    // Mean power over that of the same lines without variation: 1 + v² × the mean of (1 − r)² + r² over a rise r = u²(3 − 2u), which is
    // 26/35 (integral of a polynomial). Powers of 4,000 steps scatter: spread of a step's power 2v, so 4 standard errors are 8 v / √4000.
    [TestCase(5)]
    [TestCase(15)]
    public void StepVariation_Given_AddsItsPower(double percent)
    {
        KeyValues values = Drawn.Steady().Set(MovementKeys.CadenceHz, 2).Set(MovementKeys.AmplitudeG, 1);
        KeyValues varied = values.Copy().Set(MovementKeys.StepVariationPercent, percent);
        double v = percent / 100;
        double gain = Math.Pow(Drawn.Rms(Drawn.Of(varied, 2000, 50).X) / Drawn.Rms(Drawn.Of(values, 2000, 50).X), 2);
        Assert.That(gain, Is.EqualTo(1 + (26.0 / 35 * v * v)).Within(8 * v / Math.Sqrt(4000)));

        // And it is there at all: what differs has the rms of v √(26/35).
        Drawn difference = Drawn.Of(varied, 2000, 50).Less(Drawn.Of(values, 2000, 50));
        double share = Drawn.Rms(difference.X) / Drawn.Rms(Drawn.Of(values, 2000, 50).X);
        Assert.That(share, Is.EqualTo(v * Math.Sqrt(26.0 / 35)).Within(6).Percent);
    }
}
