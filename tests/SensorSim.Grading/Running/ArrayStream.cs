// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Running;

/// <summary>An ECG from an array, as a stream of one channel.</summary>
internal sealed class ArrayStream : ISampleStream
{
    private readonly int[] _codes;

    /// <summary>Creates a stream.</summary>
    /// <param name="codes">Codes of 1 µV.</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    public ArrayStream(int[] codes, int rateHz)
    {
        _codes = codes;
        Format = new StreamFormat([new ChannelFormat { Name = ChannelName.Ecg, Device = "array", RateHz = rateHz, Bits = 24, IsSigned = true, UnitPerCode = 0.001 }]);
    }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick => _codes.Length;

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        block.Begin(PositionTick, untilTick);
        int count = (int)(untilTick - PositionTick);
        if (count > 0)
        {
            block.Channels[0].Append(PositionTick, count, out Span<int> codes, out _);
            _codes.AsSpan((int)PositionTick, count).CopyTo(codes);
        }

        PositionTick = untilTick;
    }
}
