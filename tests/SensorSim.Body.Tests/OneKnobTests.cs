// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Movement;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Subject;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Tests;

/// <summary>One knob, one change: what a knob must leave as it is, to the nanosecond of truth.</summary>
public sealed class OneKnobTests
{
    private const ulong Seed = 41;
    private static readonly MarkKind[] s_ecgKinds =
    [
        MarkKind.RPeak, MarkKind.POnset, MarkKind.PPeak, MarkKind.PEnd, MarkKind.QrsOnset, MarkKind.QrsEnd,
        MarkKind.TOnset, MarkKind.TPeak, MarkKind.TEnd,
    ];

    private static readonly MarkKind[] s_pulseKinds =
    [
        MarkKind.PulseFootMinimum, MarkKind.PulseFootTangent, MarkKind.PulseFootSecondDerivative, MarkKind.SteepestPoint, MarkKind.SystolicPeak,
    ];

    private static NumberKey[] PulseAndMovementKnobs =>
    [
        .. new[] { PulseKeys.All, MovementKeys.All, ArteryKeys.All, EjectionKeys.All, PressureKeys.All, OxygenKeys.All, SubjectKeys.All }
            .SelectMany(all => all).OfType<NumberKey>(),
        BreathingKeys.SpreadPerMin,
    ];

    [TestCaseSource(nameof(PulseAndMovementKnobs))]
    public void PulseAndMovementKnobs_Changed_LeaveEveryEcgTime(NumberKey key)
    {
        // Without respiratory variability breathing has no hand in the rhythm either.
        KeyValues values = new KeyValues().Set(HeartKeys.RespiratoryVariabilityMs, 0);
        Assert.That(
            Times(values.Copy().Set(key, key.Maximum), s_ecgKinds, ChannelName.Ecg), Is.EqualTo(Times(values, s_ecgKinds, ChannelName.Ecg)));
    }

    // The sinus node does not hear of ventricular beats: every impulse stays where it is, conducted or not; and a beat that is premature at a
    // low rate is so at a high one, unless the sinus beat that it follows is lost by then.
    [Test]
    public void ShareOfPrematureBeats_Changed_MovesNoOtherBeat()
    {
        KeyValues few = new KeyValues().Set(EctopyKeys.VentricularPattern, "random").Set(EctopyKeys.VentricularPercent, 3);
        KeyValues many = few.Copy().Set(EctopyKeys.VentricularPercent, 15);
        List<HeartEvent> here = new Rhythms(few, Seed, 1200).Events;
        List<HeartEvent> there = new Rhythms(many, Seed, 1200).Events;
        double[] Sinus(List<HeartEvent> events) => [.. events.Where(e => e.Class != BeatClass.VentricularPremature).Select(e => e.Seconds)];
        HashSet<double> Premature(List<HeartEvent> events) => [.. events.Where(e => e.Class == BeatClass.VentricularPremature).Select(e => e.Seconds)];
        Assert.That(Sinus(there), Is.EqualTo(Sinus(here)));
        int kept = Premature(here).Count(Premature(there).Contains);
        Assert.That(Premature(here), Has.Count.GreaterThan(20));
        Assert.That(kept, Is.GreaterThan(0.7 * Premature(here).Count));
        Assert.That(Premature(there), Has.Count.GreaterThan(2 * Premature(here).Count));
    }

    // Irregularity scales the same draws: the order of long and short intervals stays.
    [Test]
    public void IrregularityOfFibrillation_Changed_KeepsTheOrderOfIntervals()
    {
        KeyValues values = new KeyValues().Set(HeartKeys.Rhythm, "atrial_fibrillation");
        double[] narrow = new Rhythms(values.Copy().Set(AtrialArrhythmiaKeys.FibrillationRrCvPercent, 10), Seed, 200).RrMs[..100];
        double[] wide = new Rhythms(values.Copy().Set(AtrialArrhythmiaKeys.FibrillationRrCvPercent, 30), Seed, 200).RrMs[..100];
        int[] Order(double[] rr) => [.. Enumerable.Range(0, rr.Length).OrderBy(i => rr[i])];
        Assert.That(Order(wide), Is.EqualTo(Order(narrow)));
    }

    [Test]
    public void ArrivalSpread_Changed_MovesFeetOnly()
    {
        var narrow = new KeyValues().Set(PulseKeys.ArrivalSpreadMs, 2);
        var wide = new KeyValues().Set(PulseKeys.ArrivalSpreadMs, 6);
        Assert.That(Times(wide, s_ecgKinds, ChannelName.Ecg), Is.EqualTo(Times(narrow, s_ecgKinds, ChannelName.Ecg)));

        // The same draws on another scale: each foot's distance from R + mean arrival is three times as long.
        double[] small = new Heartbeats(narrow, Seed, 60).Values(MarkKind.PatMs, ChannelName.Red);
        double[] large = new Heartbeats(wide, Seed, 60).Values(MarkKind.PatMs, ChannelName.Red);
        Assert.That(large, Has.Length.EqualTo(small.Length));
        for (int i = 0; i < small.Length; i++)
        {
            Assert.That(large[i] - 210, Is.EqualTo(3 * (small[i] - 210)).Within(1e-4));
        }
    }

    // Height, colour and light of the pulse are matters of Sensing; movement adds no landmark.
    [Test]
    public void HeightOfTheLight_Changed_MovesNoLandmark()
    {
        var other = new KeyValues().Set(PulseKeys.PerfusionIndexPercent, 0.1).Set(PulseKeys.RatioOfRatios, 1.4)
            .Set(PulseKeys.RespiratoryBaselinePercent, 60).Set(MovementKeys.Activity, "walking").Set(MovementKeys.AmplitudeG, 3);
        Assert.That(Times(other, s_pulseKinds, ChannelName.Red), Is.EqualTo(Times(new KeyValues(), s_pulseKinds, ChannelName.Red)));
    }

    [Test]
    public void BreathingAmplitude_Changed_LeavesTheFeetByTangents()
    {
        var other = new KeyValues().Set(PulseKeys.RespiratoryAmplitudePercent, 30);
        MarkKind[] tangent = [MarkKind.PulseFootTangent];
        MarkKind[] peak = [MarkKind.SystolicPeak];
        long[] here = Times(new KeyValues(), tangent, ChannelName.Red);
        long[] there = Times(other, tangent, ChannelName.Red);
        Assert.That(there, Has.Length.EqualTo(here.Length));
        Assert.That(there.Zip(here, (a, b) => Math.Abs(a - b)).Max(), Is.LessThanOrEqualTo(2), "both solved to 1 ns");
        Assert.That(Times(other, peak, ChannelName.Red), Is.Not.EqualTo(Times(new KeyValues(), peak, ChannelName.Red)));
    }

    [Test]
    public void WaveHeights_Changed_MoveNoOnsetEndOrRhythm()
    {
        var other = new KeyValues().Set(EcgKeys.PMv, 0.2).Set(EcgKeys.QMv, -0.3).Set(EcgKeys.RMv, 2).Set(EcgKeys.SMv, -0.5).Set(EcgKeys.TMv, -0.2);
        MarkKind[] placed = [.. s_ecgKinds.Where(k => k != MarkKind.RPeak)];
        Assert.That(Times(other, placed, ChannelName.Ecg), Is.EqualTo(Times(new KeyValues(), placed, ChannelName.Ecg)));
    }

    [Test]
    public void Seed_Changed_MovesTheBeats() =>
        Assert.That(new Heartbeats(new KeyValues(), 1, 20).Seconds(MarkKind.RPeak), Is.Not.EqualTo(new Heartbeats(new KeyValues(), 2, 20).Seconds(MarkKind.RPeak)));

    private static long[] Times(KeyValues values, MarkKind[] kinds, ChannelName channel) =>
        [.. new Heartbeats(values, Seed, 60).Rows.Where(r => r.Channel == channel && kinds.Contains(r.Kind)).Select(r => r.TimeNs)];
}
