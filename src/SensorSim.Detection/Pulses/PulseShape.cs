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
/// Accumulator: 32 bits, 12 × 17 + 18 × 10 bits; spans above 256 samples (512 ms at 500 Hz) clip.
/// Worst case: two medians of eight a pulse.
/// Output: a state; no division but one at the start.
/// </remarks>
public struct PulseShape
{
    // Own scenarios: half of all pulses differ from the median of eight by less than 1.5 ms, feet that are off by 10 ms by 5 to 35 ms.
    private const int RiseMs = 6;
    private const int PeakMs = 7;
    private const int Fewest = 4;
    private const int MostOfHeight = 6;
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
    /// <param name="heightOff">How far its height is off that of others [1/64 octave].</param>
    public void Add(in PulseEvent pulse, int heightOff)
    {
        ushort rise = Span(pulse.Foot, pulse.Steepest);
        ushort peak = Span(pulse.Foot, pulse.SystolicPeak);
        int riseOff = Off(_rises, rise);
        int peakOff = Off(_peaks, peak);

        // 6 ms times 12 are the unit of the sum: 9 ms are 18 of 1/2 ms, the worth of 1/64 octave. Heights that alternate, or that noise makes,
        // say nothing of the foot by themselves: they never count for more than 3 ms.
        int height = heightOff < MostOfHeight ? heightOff : MostOfHeight;
        bool isLikeInAll = (12 * (riseOff + peakOff)) + (height * _riseReach) <= 18 * _riseReach;
        IsUsual = _count >= Fewest && riseOff <= _riseReach && peakOff <= _peakReach && isLikeInAll;
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

    private readonly int Off(in Half8 before, int span)
    {
        Word8 words = default;
        for (int i = 0; i < _count; i++)
        {
            words[i] = before[i];
        }

        return _count == 0 ? span : Sat.Abs32(span - Median.OfUpTo8(((ReadOnlySpan<int>)words)[.._count]));
    }
}
