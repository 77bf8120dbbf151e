// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>Samples of one channel through the conversion stage alone; one unit is one code.</summary>
internal sealed class Converted
{
    private const int Block = 1000;

    private Converted(int count)
    {
        Codes = new int[count];
        Status = new ushort[count];
        Analog = new double[count];
    }

    public int[] Codes { get; }

    public ushort[] Status { get; }

    /// <summary>Analog values as the stage left them.</summary>
    public double[] Analog { get; }

    public static ChannelFormat Format(ChannelName name = ChannelName.Ecg, int bits = 16, int rateHz = 250, bool isSigned = true, int zero = 0, double unit = 1) => new()
    {
        Name = name, Device = "sensor", RateHz = rateHz, Bits = bits, IsSigned = isSigned, UnitPerCode = unit, ZeroCode = zero,
    };

    public static Converted Of(KeyValues values, ChannelFormat format, double[] analog, ulong seed = 7, int block = Block)
    {
        var stage = new ConversionStage(values, seed, format, new SampleGrid(0, 1.0 / format.RateHz));
        var result = new Converted(analog.Length);
        analog.CopyTo(result.Analog, 0);
        for (int first = 0; first < analog.Length; first += block)
        {
            int length = Math.Min(block, analog.Length - first);
            stage.Convert(result.Analog.AsSpan(first, length), result.Codes.AsSpan(first, length), result.Status.AsSpan(first, length), first);
        }

        return result;
    }
}
