// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Signals.Processes;

namespace SensorSim.Signals.Tests.Processes;

public sealed class SampleGridTests
{
    [Test]
    public void FirstAtOrAfter_AnyInstant_IsTheFirstByTheGridsOwnSeconds() =>
        Gen.Select(Gen.Double[-10, 10], Gen.Double[0.0001, 0.1], Gen.Double[-100, 100_000]).Sample((start, step, seconds) =>
        {
            var grid = new SampleGrid(start, step);
            long index = grid.FirstAtOrAfter(seconds);
            Assert.That(grid.Seconds(index), Is.GreaterThanOrEqualTo(seconds));
            Assert.That(grid.Seconds(index - 1), Is.LessThan(seconds));
        }, iter: 20_000, threads: 1);

    [TestCase(50)]
    [TestCase(100)]
    [TestCase(128)]
    [TestCase(360)]
    [TestCase(1000)]
    public void FirstAtOrAfter_OwnInstant_IsThatSample(int rateHz)
    {
        // Division alone misses some of these: n × step / step is not always n.
        var grid = new SampleGrid(0.0013, 1.0 / rateHz);
        for (long index = 0; index < 200_000; index++)
        {
            if (grid.FirstAtOrAfter(grid.Seconds(index)) != index || grid.FirstAtOrAfter(Math.BitIncrement(grid.Seconds(index))) != index + 1)
            {
                Assert.Fail($"sample {index}");
            }
        }
    }
}
