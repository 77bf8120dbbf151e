// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>Arrival time and systolic times of the pulse.</summary>
public sealed class ArrivalTests
{
    [TestCaseSource(typeof(Cases), nameof(Cases.Names))]
    public void Foot_NoSpread_ComesTheArrivalTimeAfterTheRPeak(string name)
    {
        KeyValues values = Cases.Values(name).Set(PulseKeys.ArrivalSpreadMs, 0);
        List<BeatView> beats = new Heartbeats(values, 21, 120).Beats;
        Assert.That(
            beats.Select(b => b.Landmarks.FootTangentSeconds - b.R.Seconds), Is.All.EqualTo(values[PulseKeys.ArrivalMs] * 1e-3).Within(1e-6));
    }

    [TestCase(210, 4)]
    [TestCase(120, 10)]
    [TestCase(380, 0.5)]
    public void PatMs_Spread_HasTheMeanAndSdOfTheKnobs(double arrivalMs, double spreadMs)
    {
        var heart = new Heartbeats(new KeyValues().Set(PulseKeys.ArrivalMs, arrivalMs).Set(PulseKeys.ArrivalSpreadMs, spreadMs), 22, 7200);
        double[] pat = heart.Values(MarkKind.PatMs, ChannelName.Infrared);

        // Independent normal draws: four standard errors, σ/√n of the mean and σ/√(2n) of the standard deviation.
        Assert.That(pat, Has.Length.GreaterThan(7000));
        Assert.That(Moments.Mean(pat), Is.EqualTo(arrivalMs).Within(4 * spreadMs / Math.Sqrt(pat.Length)));
        Assert.That(Moments.Sd(pat), Is.EqualTo(spreadMs).Within(4 * spreadMs / Math.Sqrt(2.0 * pat.Length)));
        Assert.That(heart.Values(MarkKind.PatMs, ChannelName.Red), Is.EqualTo(pat));
    }

    [Test]
    public void PatMs_EachBeat_IsItsFootLessItsRPeak()
    {
        var heart = new Heartbeats(new KeyValues(), 23, 120);
        Dictionary<long, long> r = heart.Times(MarkKind.RPeak, ChannelName.Ecg).ToDictionary(t => t.Beat, t => t.Ns);
        foreach (TruthEvent pat in heart.Rows.Where(x => x.Kind == MarkKind.PatMs && r.ContainsKey(x.BeatId)))
        {
            Assert.That((pat.TimeNs - r[pat.BeatId]) * 1e-6, Is.EqualTo(pat.Value).Within(1e-5));
        }
    }

    // Ejection time 413 − 1.7 × rate ms (Weissler 1968, from memory): 60 bpm 311, 100 bpm 243; and the limits of the model.
    [TestCase(60, 311.0)]
    [TestCase(100, 243.0)]
    [TestCase(150, 158.0)]
    [TestCase(25, 362.0)]
    [TestCase(240, 107.0)]
    public void Components_AnyRate_ScaleWithEjectionTime(double rateBpm, double ejectionMs)
    {
        PulseBeat at60 = Steady(60).Pulse;
        PulseBeat here = Steady(rateBpm).Pulse;
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            Assert.That(here[i].ToPeakSeconds / at60[i].ToPeakSeconds, Is.EqualTo(ejectionMs / 311).Within(1e-9));
            Assert.That(
                (here[i].StartSeconds - here[0].StartSeconds) / (ejectionMs / 311), Is.EqualTo(at60[i].StartSeconds - at60[0].StartSeconds).Within(1e-9));
        }
    }

    [TestCase(40)]
    [TestCase(65)]
    [TestCase(120)]
    [TestCase(200)]
    public void Height_SteadyTrain_IsOnePulseUnit(double rateBpm) =>
        Assert.That(Steady(rateBpm).Landmarks.HeightUnits, Is.EqualTo(1).Within(0.05).Percent);

    [Test]
    public void CrestAndNotch_AtRest_LieWhereTheShapeSays()
    {
        // 60 bpm: crest about 120 ms and notch about 290 ms after the foot by tangents; crest times of 100 to 200 ms are usual (from memory).
        var heart = new Heartbeats(Still(60), 1, 20);
        BeatView beat = heart.Beats[20];
        Assert.That(beat.Landmarks.SystolicPeakSeconds - beat.Landmarks.FootTangentSeconds, Is.EqualTo(0.120).Within(0.005));
        DirectWaves waves = DirectWaves.Round(heart.Beats, 20);
        double t = beat.Landmarks.SystolicPeakSeconds + 0.01;
        while (waves.Pulse(t + 1e-4) < waves.Pulse(t))
        {
            t += 1e-4;
        }

        Assert.That(t - beat.Landmarks.FootTangentSeconds, Is.EqualTo(0.290).Within(0.01));
    }

    private static BeatView Steady(double rateBpm) => new Heartbeats(Still(rateBpm), 1, 20).Beats[^2];

    private static KeyValues Still(double rateBpm) =>
        new KeyValues().Set(HeartKeys.RateBpm, rateBpm).Set(HeartKeys.RespiratoryVariabilityMs, 0).Set(HeartKeys.SlowVariabilityMs, 0)
            .Set(PulseKeys.ArrivalSpreadMs, 0).Set(PulseKeys.RespiratoryAmplitudePercent, 0);
}
