// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>PR, QRS and QT from the truth of onsets and ends.</summary>
public sealed class IntervalTests
{
    // QT, RR and the QT corrected by Fridericia's cube root (Fridericia 1920): rows computed from the published formula.
    [TestCase(400, 1000, 400.00)]
    [TestCase(350, 857, 368.47)]
    [TestCase(360, 750, 396.23)]
    [TestCase(340, 600, 403.11)]
    [TestCase(440, 1200, 414.06)]
    public void Qt_SteadyRhythm_FollowsFridericia(double qtMs, double rrMs, double qtcMs)
    {
        Heartbeats heart = Steady(new KeyValues().Set(HeartKeys.RateBpm, 60e3 / rrMs).Set(EcgKeys.QtcMs, qtcMs));
        Assert.That(Between(heart, MarkKind.QrsOnset, MarkKind.TEnd), Is.All.EqualTo(qtMs).Within(0.01));
    }

    [TestCase(60)]
    [TestCase(90)]
    [TestCase(160)]
    public void Qrs_AnyRate_LastsAsLongAsTheKnobSays(double qrsMs)
    {
        foreach (double rate in new double[] { 40, 60, 140 })
        {
            Heartbeats heart = Steady(new KeyValues().Set(HeartKeys.RateBpm, rate).Set(EcgKeys.QrsMs, qrsMs));
            Assert.That(Between(heart, MarkKind.QrsOnset, MarkKind.QrsEnd), Is.All.EqualTo(qrsMs).Within(1e-5));
        }
    }

    [TestCase(120)]
    [TestCase(160)]
    [TestCase(280)]
    public void Pr_At60Bpm_LastsAsLongAsTheKnobSays(double prMs) =>
        Assert.That(
            Between(Steady(new KeyValues().Set(HeartKeys.RateBpm, 60).Set(EcgKeys.PrMs, prMs)), MarkKind.POnset, MarkKind.QrsOnset),
            Is.All.EqualTo(prMs).Within(1e-5));

    [TestCase(40)]
    [TestCase(100)]
    [TestCase(150)]
    public void Pr_AnyRate_FollowsTheFourthRootOfRr(double rateBpm) =>
        Assert.That(
            Between(Steady(new KeyValues().Set(HeartKeys.RateBpm, rateBpm)), MarkKind.POnset, MarkKind.QrsOnset),
            Is.All.EqualTo(160 * Math.Sqrt(Math.Sqrt(60 / rateBpm))).Within(1e-5));

    [Test]
    public void Waves_OnsetAndEnd_LieAtTwoPercentOfTheirPeaks()
    {
        BeatView beat = new Heartbeats(new KeyValues(), 1, 10).Beats[9];
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            EcgWave wave = beat.Ecg[i];
            double x = (wave.EndSeconds - wave.CentreSeconds) / wave.SigmaSeconds;
            Assert.That(Math.Exp(-x * x / 2), Is.EqualTo(0.02).Within(1e-10));
            Assert.That(wave.CentreSeconds - wave.OnsetSeconds, Is.EqualTo(wave.EndSeconds - wave.CentreSeconds).Within(1e-12));
        }
    }

    [Test]
    public void LaggedRr_AfterAStep_Reaches90PercentIn138Seconds()
    {
        // A first-order lag of 60 s reaches 90 % of a step in 60 s × ln 10 = 138.2 s. The rhythm makes no steps, so each beat's own
        // change gives the lag: what is left of the distance to the RR interval after that interval is e^(−RR/τ).
        List<BeatView> beats = new Heartbeats(new KeyValues().Set(HeartKeys.SlowVariabilityMs, 60), 2, 300).Beats;
        for (int i = 1; i < beats.Count; i++)
        {
            double left = (beats[i].LaggedRrSeconds - beats[i].RrSeconds) / (beats[i - 1].LaggedRrSeconds - beats[i].RrSeconds);
            if (Math.Abs(beats[i - 1].LaggedRrSeconds - beats[i].RrSeconds) > 1e-3)
            {
                double tau = -beats[i].RrSeconds / Math.Log(left);
                Assert.That(tau * Math.Log(10), Is.EqualTo(138.155).Within(0.001));
            }

            // And QT is that of the lagged interval, not of the latest one.
            double qt = beats[i].Ecg[EcgBeat.T].EndSeconds - beats[i].Ecg[EcgBeat.Q].OnsetSeconds;
            Assert.That(qt, Is.EqualTo(0.4 * Math.Cbrt(beats[i].LaggedRrSeconds)).Within(1e-9));
        }
    }

    [Test]
    public void Truth_FlatWave_HasNoRows()
    {
        Heartbeats heart = Steady(new KeyValues().Set(EcgKeys.PMv, 0).Set(EcgKeys.TMv, 0));
        MarkKind[] gone = [MarkKind.POnset, MarkKind.PPeak, MarkKind.PEnd, MarkKind.TOnset, MarkKind.TPeak, MarkKind.TEnd];
        Assert.That(heart.Rows.Select(r => r.Kind).Intersect(gone), Is.Empty);
        Assert.That(heart.Seconds(MarkKind.QrsOnset), Is.Not.Empty);
    }

    private static Heartbeats Steady(KeyValues values) =>
        new(values.Set(HeartKeys.RespiratoryVariabilityMs, 0).Set(HeartKeys.SlowVariabilityMs, 0), 3, 40);

    // Times between two kinds of the same beat [ms].
    private static double[] Between(Heartbeats heart, MarkKind first, MarkKind last)
    {
        Dictionary<long, long> begin = heart.Rows.Where(r => r.Kind == first).ToDictionary(r => r.BeatId, r => r.TimeNs);
        double[] times = [.. heart.Rows.Where(r => r.Kind == last && begin.ContainsKey(r.BeatId)).Select(r => (r.TimeNs - begin[r.BeatId]) * 1e-6)];
        Assert.That(times, Has.Length.GreaterThan(15));
        return times;
    }
}
