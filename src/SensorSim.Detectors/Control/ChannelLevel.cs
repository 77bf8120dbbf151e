// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Gathers the codes of one channel second by second: sum, count, and whether any was clipped.</summary>
/// <remarks>Integers only. Seconds are counted by sample index, so cuts and gaps do not shift them.</remarks>
internal struct ChannelLevel
{
    private const ushort Clipped = (ushort)(SampleStatus.Saturated | SampleStatus.OverRange);

    private readonly int _rateHz;
    private long _second;
    private long _sum;
    private bool _isClipped;
    private ushort _settings;
    private bool _isMixed;

    public ChannelLevel(int channel, ChannelFormat format)
    {
        Channel = channel;
        _rateHz = format.RateHz;
    }

    /// <summary>Channel number.</summary>
    public int Channel { get; }

    /// <summary>Samples of the second that has just ended.</summary>
    public int Count { get; private set; }

    /// <summary>Mean code of the second that has just ended; only when it has samples.</summary>
    public readonly int Mean => (int)(_sum / Count);

    /// <summary>Whether a sample of the second was clipped.</summary>
    public readonly bool IsClipped => _isClipped;

    /// <summary>Number of the settings, as the last sample had it.</summary>
    public readonly ushort Settings => _settings;

    /// <summary>Whether the settings changed within the second: its mean stands for neither.</summary>
    public readonly bool IsMixed => _isMixed;

    /// <summary>Takes samples of one run, up to the end of a second at most.</summary>
    /// <param name="codes">Codes.</param>
    /// <param name="status">Status words.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <returns>How many were taken; fewer than there are when a second ended: look at it, then <see cref="Begin"/> the next.</returns>
    public int Take(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, long firstIndex)
    {
        long end = (_second + 1) * _rateHz;
        int count = (int)Math.Max(0, Math.Min(codes.Length, end - firstIndex));
        for (int i = 0; i < count; i++)
        {
            ushort word = status[i];
            ushort settings = (ushort)(word >> StatusWord.SettingsShift);
            _isMixed |= Count > 0 && settings != _settings;
            _isClipped |= (word & Clipped) != 0;
            _settings = settings;
            _sum += codes[i];
            Count++;
        }

        return count;
    }

    /// <summary>Whether a sample lies after the present second.</summary>
    /// <param name="index">Index of the sample.</param>
    public readonly bool IsOver(long index) => index >= (_second + 1) * _rateHz;

    /// <summary>Begins the second that holds a sample.</summary>
    /// <param name="index">Index of the sample.</param>
    public void Begin(long index)
    {
        _second = index / _rateHz;
        _sum = 0;
        Count = 0;
        _isClipped = false;
        _isMixed = false;
    }
}
