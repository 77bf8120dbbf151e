// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>The input range of the amplifier, sample by sample.</summary>
public sealed class InputRangeTests
{
    private const double RangeMv = 42;

    // One sample beyond it at each place of pieces of any length; what lies at the limit is left alone.
    [Test]
    public void Run_OneSampleBeyond_IsCutAndFlaggedThere([Values(1, 3, 15, 16, 17, 31, 32, 40, 250)] int length, [Values(-1, 1)] int sign)
    {
        var values = new KeyValues().Set(EcgAmplifierKeys.InputRangeMv, RangeMv);
        AmplifierChain chain = AmplifierChain.Create(values, new SampleGrid(0, 1 / 250.0), 250)!;
        for (int place = 0; place < length; place++)
        {
            double[] x = [.. Enumerable.Range(0, length).Select(i => i % 3 == 0 ? -sign * RangeMv : 0.01 * i)];
            double[] expected = [.. x];
            ushort[] status = new ushort[length];
            x[place] = sign * Math.BitIncrement(RangeMv);
            expected[place] = sign * RangeMv;
            chain.Run(x, status, 0, 0);
            Assert.That(x, Is.EqualTo(expected));
            Assert.That(status[place], Is.EqualTo((ushort)SampleStatus.Saturated));
            Assert.That(status.Where((_, i) => i != place), Has.All.Zero);
        }
    }
}
