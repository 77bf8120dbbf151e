// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Whether a pulse has the shape of those before it, so that its foot can be compared with theirs.</summary>
/// <remarks>
/// <para>
/// Movement that is too little to shut a gate bends the upstroke. It then moves foot, steepest point and peak by different times, most of all the
/// foot, which is where two lines meet. So the times from the foot to the other two change with the error of the foot, while the arrival time alone
/// changes from beat to beat by itself.
/// </para>
/// Input: places in 1/256 sample.
/// Product: 7 × 256 × rate at the start, 20 bits.
/// Accumulator: 16 bits, without a sign; spans above 256 samples (512 ms at 500 Hz) clip.
/// Worst case: two medians of eight a pulse.
/// Output: a state; no division but one at the start.
/// </remarks>
public struct PulseShape
{
    // Own scenarios: half of all pulses differ from the median of eight by less than 1.5 ms, feet that are off by 10 ms by 5 to 35 ms.
    private const int RiseMs = 6;
    private const int PeakMs = 7;
    private const int Fewest = 4;
    private const int Mask = Half8.Length - 1;

    private Half8 _rises;
    private Half8 _peaks;
    private short _riseReach;
    private short _peakReach;
    private byte _at;
    private byte _count;

    /// <summary>Whether the latest pulse was like the median of up to eight before it; never before there were four.</summary>
    public bool IsUsual { get; private set; }

    /// <summary>Forgets.</summary>
    /// <param name="rateHz">Rate of the light [Hz], up to 500.</param>
    public void Start(int rateHz)
    {
        this = default;
        _riseReach = (short)(RiseMs * 256 * rateHz / 1000);
        _peakReach = (short)(PeakMs * 256 * rateHz / 1000);
    }

    /// <summary>Takes a pulse.</summary>
    /// <param name="pulse">The pulse.</param>
    public void Add(in PulseEvent pulse)
    {
        ushort rise = Span(pulse.Foot, pulse.Steepest);
        ushort peak = Span(pulse.Foot, pulse.SystolicPeak);
        IsUsual = _count >= Fewest && IsNear(_rises, rise, _riseReach) && IsNear(_peaks, peak, _peakReach);
        _rises[_at] = rise;
        _peaks[_at] = peak;
        _at = (byte)((_at + 1) & Mask);
        _count += _count < Half8.Length ? (byte)1 : (byte)0;
    }

    private static ushort Span(SamplePosition from, SamplePosition to)
    {
        long span = to.In256 - from.In256;
        return span < 0 ? (ushort)0 : span > ushort.MaxValue ? ushort.MaxValue : (ushort)span;
    }

    private readonly bool IsNear(in Half8 before, int span, int reach)
    {
        Word8 words = default;
        for (int i = 0; i < _count; i++)
        {
            words[i] = before[i];
        }

        return Sat.Abs32(span - Median.OfUpTo8(((ReadOnlySpan<int>)words)[.._count])) <= reach;
    }
}
