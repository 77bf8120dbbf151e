// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Bedrock;

public sealed class MemoryTests
{
    // Three hours without a byte: memory is flat, whatever the length.
    [Test]
    public void Read_ThreeHoursAfterWarmUp_AllocatesNothing()
    {
        var stream = new SensorStream(Settings.Everything(), 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, 5000);
        long rows = 0;
        Advance(stream, block, 20, ref rows);
        Assert.That(Allocations.Least(() => Advance(stream, block, 1080, ref rows)), Is.Zero);
        Assert.That(stream.Truth.OverflowCount, Is.Zero);
        Assert.That(rows, Is.GreaterThan(200_000));
    }

    [Test]
    public void Read_SmallBlocksAfterWarmUp_AllocatesNothing()
    {
        var stream = new SensorStream(Settings.Everything(), 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, 17);
        long rows = 0;
        Advance(stream, block, 2000, ref rows);
        Assert.That(Allocations.Least(() => Advance(stream, block, 20_000, ref rows)), Is.Zero);
    }

    private static void Advance(SensorStream stream, SampleBlock block, int blocks, ref long rows)
    {
        for (int i = 0; i < blocks; i++)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);
            while (stream.Truth.TryTake(out _))
            {
                rows++;
            }
        }
    }
}
