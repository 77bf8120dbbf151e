// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Tests.Streams;

public sealed class ChannelBlockTests
{
    [Test]
    public void Append_ConsecutiveAndAfterAGap_MakesRuns()
    {
        var block = new ChannelBlock(10);
        Fill(block, 100, 3, 1);
        Fill(block, 103, 2, 2);
        Fill(block, 110, 4, 3);
        Assert.That(block.Count, Is.EqualTo(9));
        Assert.That(block.Runs.ToArray(), Is.EqualTo(new[] { new SampleRun(100, 0, 5), new SampleRun(110, 5, 4) }));
        Assert.That(block.Codes.ToArray(), Is.EqualTo(new[] { 1, 1, 1, 2, 2, 3, 3, 3, 3 }));
    }

    [Test]
    public void Append_UsedAgain_HandsOutZeroedStatus()
    {
        var block = new ChannelBlock(4);
        block.Append(0, 4, out _, out Span<ushort> status);
        status.Fill((ushort)SampleStatus.Saturated);
        block.Clear();
        Assert.That(block.Runs.Length + block.Codes.Length + block.Status.Length, Is.Zero);
        block.Append(7, 4, out _, out _);
        Assert.That(block.Status.ToArray(), Is.All.EqualTo((ushort)0));
    }

    [TestCase(0)]
    [TestCase(-1)]
    [TestCase(5)]
    public void Append_CountThatDoesNotFit_IsRefused(int count)
    {
        var block = new ChannelBlock(4);
        Assert.That(() => block.Append(0, count, out _, out _), Throws.InvalidOperationException.With.Message.Contains("do not fit"));
    }

    [Test]
    public void Append_IndexNotAfterTheLast_IsRefusedAndChangesNothing()
    {
        var block = new ChannelBlock(8);
        Fill(block, 100, 3, 1);
        Assert.That(
            () => block.Append(102, 1, out _, out _),
            Throws.InvalidOperationException.With.Message.EqualTo("Sample 102 comes after sample 102; indices must rise."));
        Assert.That(block.Count, Is.EqualTo(3));
        Fill(block, 103, 1, 2);
        Assert.That(block.Runs.Length, Is.EqualTo(1));
    }

    [Test]
    public void Append_EverySecondSampleLost_IsRefusedOnlyBeyondHalfTheCapacity()
    {
        var block = new ChannelBlock(8);
        for (int i = 0; i < 5; i++)
        {
            Fill(block, 2 * i, 1, i);
        }

        Assert.That(() => block.Append(10, 1, out _, out _), Throws.InvalidOperationException.With.Message.Contains("More than 5 runs"));
        Assert.That(block.Count, Is.EqualTo(5));
    }

    [Test]
    public void Append_NegativeFirstIndex_IsAccepted()
    {
        var block = new ChannelBlock(4);
        Fill(block, -2, 2, 1);
        Fill(block, 0, 2, 2);
        Assert.That(block.Runs.ToArray(), Is.EqualTo(new[] { new SampleRun(-2, 0, 4) }));
    }

    private static void Fill(ChannelBlock block, long firstIndex, int count, int code)
    {
        block.Append(firstIndex, count, out Span<int> codes, out Span<ushort> status);
        Assert.That((codes.Length, status.Length), Is.EqualTo((count, count)));
        codes.Fill(code);
    }

    [Test]
    public void Append_OfSamples_TakesThemInBehindTheOthers()
    {
        var block = new ChannelBlock(10);
        block.Append(5, [1, 2, 3], [4, 5, 6]);
        block.Append(8, [7], [8]);
        block.Append(20, [9, 10], [11, 12]);
        Assert.That(block.Codes.ToArray(), Is.EqualTo(new[] { 1, 2, 3, 7, 9, 10 }));
        Assert.That(block.Status.ToArray(), Is.EqualTo(new[] { 4, 5, 6, 8, 11, 12 }));
        Assert.That(block.Runs.ToArray(), Is.EqualTo(new[] { new SampleRun(5, 0, 4), new SampleRun(20, 4, 2) }));
        Assert.That(() => block.Append(30, [1, 2, 3, 4, 5], [1, 2, 3, 4, 5]), Throws.InvalidOperationException);
        Assert.That(() => block.Append(30, [1, 2], [1]), Throws.InstanceOf<ArgumentOutOfRangeException>());
    }
}
