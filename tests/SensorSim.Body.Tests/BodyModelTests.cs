// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Tests;

/// <summary>State of the body: ring, copies, memory, fingerprint.</summary>
public sealed class BodyModelTests
{
    /// <summary>
    /// Truth of ten minutes of the default body. A deliberate change of what the body makes changes this value and raises
    /// <c>Scenario.GeneratorVersion</c>; any other change of it is a mistake.
    /// </summary>
    private const string DefaultBodyFingerprint = "f754c9adb7d00d0b";

    [Test]
    public void TryBeat_BeatThatLeftTheRing_Throws()
    {
        var body = new BodyModel(new KeyValues(), 1);
        body.PlanUntil(400);
        Assert.That(() => body.TryBeat(3, 500, out _), Throws.InvalidOperationException.With.Message.Contains("3").And.Message.Contains("256"));
    }

    [Test]
    public void TryBeat_BeatsInTheRing_AreTheSameHoweverFarThePlanIs()
    {
        var near = new BodyModel(new KeyValues(), 1);
        var far = new BodyModel(new KeyValues(), 1);
        for (long id = 0; near.TryBeat(id, 30, out BeatView beat); id++)
        {
            Assert.That(far.TryBeat(id, 45, out BeatView other));
            Assert.That(Bytes(other), Is.EqualTo(Bytes(beat)));
        }

        Assert.That(far.TryBeat(10_000, 40, out BeatView none), Is.False);
        Assert.That(Bytes(none), Is.EqualTo(Bytes(default)));
    }

    [Test]
    public void TryBeat_UntilItsRWave_IsExclusive()
    {
        var heart = new Heartbeats(new KeyValues(), 1, 30);
        double r = heart.Beats[20].Ecg[Body.Ecg.EcgBeat.R].CentreSeconds;
        Assert.That(new BodyModel(new KeyValues(), 1).TryBeat(20, r, out _), Is.False);
        Assert.That(new BodyModel(new KeyValues(), 1).TryBeat(20, Math.BitIncrement(r), out _));
    }

    [Test]
    public void Copy_AnyTime_GoesOnWithTheSameBits([Values(0, 5, 37.3, 300)] double afterSeconds)
    {
        var body = new BodyModel(new KeyValues(), 7);
        long id = 0;
        for (; body.TryBeat(id, afterSeconds, out _); id++)
        {
            if (id % 16 != 0)
            {
                continue;
            }

            body.Truth.Clear();
        }

        body.PlanUntil(afterSeconds);
        BodyModel copy = body.Copy();
        for (int n = 0; n < 200; n++, id++)
        {
            Assert.That(body.TryBeat(id, 1e9, out BeatView beat) & copy.TryBeat(id, 1e9, out BeatView other));
            Assert.That(Bytes(other), Is.EqualTo(Bytes(beat)));
        }

        body.PlanUntil(afterSeconds + 100);
        copy.PlanUntil(afterSeconds + 100);
        Assert.That(copy.Truth.Count, Is.EqualTo(body.Truth.Count).And.GreaterThan(1000));
        while (body.Truth.TryTake(out TruthEvent row))
        {
            Assert.That(copy.Truth.TryTake(out TruthEvent other));
            Assert.That((other.Kind, other.TimeNs, BitConverter.DoubleToInt64Bits(other.Value)), Is.EqualTo((row.Kind, row.TimeNs, BitConverter.DoubleToInt64Bits(row.Value))));
        }
    }

    [Test]
    public void Truth_SaturationWanders_RowsOfOtherLightsDoNotDependOnGreen()
    {
        KeyValues values = new KeyValues().SetChanges(OxygenKeys.SaturationPercent, [new CourseChange(10, ChangeKind.Ramp, 70, 20)], []);
        TruthEvent[] with = Rows(new BodyModel(values, 1, hasGreen: true));
        TruthEvent[] without = Rows(new BodyModel(values, 1));
        Assert.That(with.Where(row => row.Channel != ChannelName.Green), Is.EqualTo(without));

        // Its own earlier pulses are of another size against the present one: so are its feet.
        long[] green = Feet(with, ChannelName.Green);
        Assert.That(green, Has.Length.EqualTo(Feet(with, ChannelName.Red).Length).And.Length.GreaterThan(30));
        Assert.That(green, Is.Not.EqualTo(Feet(with, ChannelName.Red)).And.Not.EqualTo(Feet(with, ChannelName.Infrared)));

        static TruthEvent[] Rows(BodyModel body)
        {
            body.PlanUntil(40);
            var rows = new List<TruthEvent>();
            while (body.Truth.TryTake(out TruthEvent row))
            {
                rows.Add(row);
            }

            return [.. rows];
        }

        static long[] Feet(TruthEvent[] rows, ChannelName light) =>
            [.. rows.Where(row => row.Channel == light && row.Kind == MarkKind.PulseFootMinimum).Select(row => row.TimeNs)];
    }

    [Test]
    public void PlanUntil_AfterWarmUp_AllocatesNothing()
    {
        var body = new BodyModel(new KeyValues(), 1);
        long before = 0;
        for (int minute = 1; minute <= 60; minute++)
        {
            before = minute == 30 ? GC.GetAllocatedBytesForCurrentThread() : before;
            body.PlanUntil(minute * 60);
            body.Truth.Clear();
        }

        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.Zero);
    }

    [Test]
    public void Truth_SimulatedDayDrainedEachMinute_NeverOverflowsAndNeverRepeats()
    {
        var body = new BodyModel(new KeyValues(), 1);
        long beats = 0;
        long lastNs = -1;
        for (int minute = 1; minute <= 24 * 60; minute++)
        {
            body.PlanUntil(minute * 60);
            while (body.Truth.TryTake(out TruthEvent row))
            {
                if (row.Kind == MarkKind.RPeak)
                {
                    Assert.That(row.TimeNs, Is.GreaterThan(lastNs));
                    lastNs = row.TimeNs;
                    beats++;
                }
            }
        }

        // 65 bpm for a day, and the ring is empty at its end.
        Assert.That(beats, Is.EqualTo(65 * 60 * 24).Within(0.5).Percent);
        Assert.That((body.Truth.Count, body.Truth.OverflowCount), Is.EqualTo((0, 0L)));
    }

    [Test]
    public void Truth_NotDrained_CountsWhatDidNotFit()
    {
        var body = new BodyModel(new KeyValues(), 1);
        body.PlanUntil(3600);
        Assert.That((body.Truth.Count, body.Truth.OverflowCount > 50_000), Is.EqualTo((BodyModel.TruthCapacity, true)));
    }

    [Test]
    public void Truth_TenMinutesOfTheDefaultBody_HasThePinnedFingerprint()
    {
        ulong hash = 0xCBF29CE484222325;
        foreach (TruthEvent row in new Heartbeats(new KeyValues(), 1, 600).Rows)
        {
            ulong bits = unchecked((ulong)row.TimeNs);
            for (int shift = 0; shift < 64; shift += 8)
            {
                hash = unchecked((hash ^ ((bits >> shift) & 0xFF)) * 0x100000001B3);
            }
        }

        Assert.That(hash.ToString("x16", null), Is.EqualTo(DefaultBodyFingerprint));
    }

    private static byte[] Bytes(BeatView beat) => MemoryMarshal.AsBytes(MemoryMarshal.CreateSpan(ref beat, 1)).ToArray();
}
