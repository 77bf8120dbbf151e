// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Delivery;

/// <summary>A buffer of N samples during a stall, against the textbook queue: filled sample by sample, emptied at the stall's end.</summary>
public sealed class BufferLossTests
{
    private static readonly DataPathKeys s_keys = DataPathKeys.First;

    // A stall of 1 s at 100 Hz brings 100 samples; 32 find room.
    [TestCase("oldest", 32)]
    [TestCase("newest", 32)]
    [TestCase("oldest", 99)]
    [TestCase("newest", 1)]
    public void Stall_LongerThanTheBuffer_LosesAllButItsFill(string keeps, int capacity)
    {
        Delivered result = Delivered.Of(Values(2, 1000, capacity, keeps), 300_000, 100);
        int[] gaps = Delivered.Runs(result.IsLost);
        Assert.That(gaps, Has.Length.GreaterThan(30));
        Assert.That(gaps.Count(g => g == 100 - capacity), Is.GreaterThan(0.9 * gaps.Length), "single stalls");
        Assert.That(gaps, Has.All.GreaterThanOrEqualTo(100 - capacity), "joined ones are longer");

        // Exactly the samples after a gap say so.
        bool[] isLost = result.IsLost;
        ushort[] expected = [.. isLost.Select((lost, i) => !lost && i > 0 && isLost[i - 1] ? (ushort)SampleStatus.BufferOverflow : (ushort)0)];
        Assert.That(result.Status, Is.EqualTo(expected));
    }

    // Both policies lose as many samples of the same stall: the newest are kept at the cost of those before.
    [Test]
    public void Keeps_OldestOrNewest_LosesTheEndOrTheBeginOfTheSameStalls()
    {
        Delivered oldest = Delivered.Of(Values(2, 1000, 30, "oldest"), 100_000, 100);
        Delivered newest = Delivered.Of(Values(2, 1000, 30, "newest"), 100_000, 100);
        int[] begins = Begins(oldest.IsLost);
        Assert.That(begins, Is.Not.Empty);
        Assert.That(Begins(newest.IsLost), Is.EqualTo(begins.Select(b => b - 30)));
        Assert.That(Delivered.Runs(newest.IsLost), Is.EqualTo(Delivered.Runs(oldest.IsLost)));
    }

    // A queue that takes every sample and is emptied at once unless a stall is on, sample by sample: the same samples are lost.
    [TestCase("oldest")]
    [TestCase("newest")]
    public void Stalls_ThatOverlapOften_AreThoseOfAQueueFilledSampleBySample(string keeps)
    {
        const int Capacity = 20;
        const int Samples = 200_000;

        // With a buffer of one sample that keeps the oldest, what is lost shows the stalls: each from its second sample on.
        bool[] stalled = Delivered.Of(Values(20, 900, 1, "oldest"), Samples, 100).IsLost;
        for (int i = 1; i < Samples; i++)
        {
            stalled[i - 1] |= stalled[i];
        }

        var expected = new bool[Samples];
        var queue = new Queue<int>();
        for (int i = 0; i < Samples; i++)
        {
            if (!stalled[i])
            {
                queue.Clear();
                continue;
            }

            if (queue.Count < Capacity)
            {
                queue.Enqueue(i);
            }
            else if (keeps == "oldest")
            {
                expected[i] = true;
            }
            else
            {
                expected[queue.Dequeue()] = true;
                queue.Enqueue(i);
            }
        }

        Delivered result = Delivered.Of(Values(20, 900, Capacity, keeps), Samples, 100);

        // Stalls that touch to the sample look like one here; the last stretch may go on after the end.
        int differs = result.IsLost.Zip(expected).SkipLast(1000).Count(p => p.First != p.Second);
        Assert.That(expected.Count(l => l), Is.GreaterThan(10_000));
        Assert.That(differs, Is.LessThanOrEqualTo(Capacity * 6));
    }

    // Candidates once a second, kept with rate / 60: binomial (textbook).
    [Test]
    public void Rate_OfStalls_IsTheKnob()
    {
        const int Seconds = 50_000;
        Delivered result = Delivered.Of(Values(3, 100, 1, "oldest"), Seconds * 100, 100);
        double p = 3.0 / 60;
        Assert.That(Delivered.Runs(result.IsLost).Length, Is.EqualTo(Seconds * p).Within((4 * Math.Sqrt(Seconds * p * (1 - p))) + (Seconds * p * p * 0.1)));
    }

    [Test]
    public void Rate_Higher_AddsStallsAndMovesNone()
    {
        bool[] few = Delivered.Of(Values(1, 600, 20, "oldest"), 100_000, 100).IsLost;
        bool[] many = Delivered.Of(Values(4, 600, 20, "oldest"), 100_000, 100).IsLost;
        Assert.That(few.Zip(many).Count(p => p.First && !p.Second), Is.Zero);
        Assert.That(many.Count(l => l), Is.GreaterThan(2 * few.Count(l => l)));
    }

    private static int[] Begins(bool[] flags) => [.. Enumerable.Range(1, flags.Length - 1).Where(i => flags[i] && !flags[i - 1])];

    private static KeyValues Values(double perMin, double stallMs, double capacity, string keeps) => new KeyValues()
        .Set(s_keys.StallsPerMin, perMin).Set(s_keys.StallMs, stallMs).Set(s_keys.FifoSamples, capacity).Set(s_keys.FifoKeeps, keeps);
}
