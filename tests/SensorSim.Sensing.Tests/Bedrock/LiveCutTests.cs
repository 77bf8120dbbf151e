// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>Knobs that change all the time: still the same for every cut, no byte allocated, truth untouched. A promise of this project.</summary>
public sealed class LiveCutTests
{
    private const double Seconds = 25;

    private static KeyValues Still() => Settings.InARestlessRoom(Settings.Everything()).Set(OpticsKeys.GreenNa, 900);

    // Every live knob of the sensor: a ramp, a step, settling and a sine, each at its own times.
    private static KeyValues Restless()
    {
        KeyValues values = Still();
        int k = 0;
        foreach (NumberKey key in SensingKeys.All.OfType<NumberKey>().Where(k => k.IsLive).Append(PulseKeys.RespiratoryBaselinePercent))
        {
            double now = values[key];
            double low = Math.Max(key.Minimum, 0.5 * now);
            double high = Math.Min(key.Maximum, 1.3 * now);
            double at = 1 + (0.317 * k++);
            values.SetChanges(
                key,
                [
                    new CourseChange(at, ChangeKind.Ramp, low, 3), new CourseChange(at + 4, ChangeKind.Step, high, 0),
                    new CourseChange(at + 9, ChangeKind.Settle, now, 2),
                ],
                [new Oscillation(at + 11, at + 16, 0.2 * (now - low), 1.7)]);
        }

        // From nothing and back: what is shared between slots must not depend on who asks first.
        return values.SetChanges(
            OpticsKeys.MovementArtefactRatio, [new CourseChange(6.4002, ChangeKind.Step, 0, 0), new CourseChange(12.8003, ChangeKind.Step, 2, 0)], []);
    }

    [Test]
    public void Read_AnySequenceOfCuts_GivesTheSameCodesAndTruth()
    {
        Recording whole = Recording.Of(Restless(), Seconds);
        Gen.Long[1, 3000].Array[1, 9].Sample(
            cuts =>
            {
                Recording cut = Recording.OfRest(new SensorStream(Restless(), 7, Seconds), cuts);
                cut.AssertSameAs(whole, $"cuts {string.Join(' ', cuts)}");
                Assert.That(cut.TruthText(Seconds), Is.EqualTo(whole.TruthText(Seconds)));
            },
            iter: 30,
            threads: 1);
    }

    [Test]
    public void Copy_BetweenTwoLatches_ReadsOnWithTheSameBits()
    {
        Recording whole = Recording.Of(Restless(), Seconds);
        foreach (long tick in new long[] { 1, 129, 1000, 6411 })
        {
            var stream = new SensorStream(Restless(), 7, Seconds);
            Recording head = Recording.OfPart(stream, tick);
            SensorStream copy = stream.Copy();
            head.Then(Recording.OfRest(copy, 777, 13)).AssertSameAs(whole, $"copied at tick {tick}");
            head.Then(Recording.OfRest(stream, 500)).AssertSameAs(whole, $"original after its copy at tick {tick}");
        }
    }

    [Test]
    public void Truth_WithKnobsThatChange_StaysTheSameToTheBit() =>
        Assert.That(Recording.Of(Restless(), Seconds).TruthText(Seconds), Is.EqualTo(Recording.Of(Still(), Seconds).TruthText(Seconds)));

    [Test]
    public void Read_WithKnobsThatChange_AllocatesNothing()
    {
        // The compiler itself may allocate, on this thread, when it compiles a way anew: what the stream allocates it does every time.
        long least = long.MaxValue;
        for (int i = 0; i < 4; i++)
        {
            var stream = new SensorStream(Restless(), 7, double.PositiveInfinity);
            var block = new SampleBlock(stream.Format, 500);
            Advance(stream, block, 3);
            long before = GC.GetAllocatedBytesForCurrentThread();
            Advance(stream, block, 25);
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        Assert.That(least, Is.Zero);
    }

    private static void Advance(SensorStream stream, SampleBlock block, int blocks)
    {
        for (int i = 0; i < blocks; i++)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);

            // Emptied as the runner does it; a ring that is left to fill up takes memory up to its capacity.
            stream.Truth.Clear();
            stream.Acquisition.Clear();
        }
    }
}
