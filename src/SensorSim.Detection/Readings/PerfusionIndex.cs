// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Perfusion index: brightest less darkest light of a pulse over the middle of both, mean of eight pulses.</summary>
/// <remarks>
/// Input: fall of the light and light at the minimum of the pulse, 24 bits.
/// Product: amplitude × 200,000, 42 bits.
/// Accumulator: 32 bits for eight values of 18 bits.
/// Worst case: 131 % clips; a level that is not above half the amplitude is refused.
/// Output: thousandths of a per cent, each rounded to 2/1000; one long division per pulse.
/// </remarks>
public struct PerfusionIndex
{
    private const int Most = Half8.Length;
    private const int Least = 4;

    // A sixteenth: one of eight that is half as large again.
    private const int UnsteadyShift = 4;

    private Half8 _values; // 2/1000 %
    private BeatWindow _window;
    private byte _count;
    private byte _at;
    private int _milliPercent;
    private byte _quality;

    /// <summary>Whether there are eight pulses, and their mean and median agree within a sixteenth: none of them is out of all proportion.</summary>
    public bool IsSteady { get; private set; }

    /// <summary>The latest value; quality 0 until there was one.</summary>
    public readonly Reading Latest => new(ReadingKind.PerfusionIndex, _milliPercent, _quality, _window.End256, _window.Length256(_count));

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        this = default;
        _window.Start(clock);
    }

    /// <summary>Takes a pulse.</summary>
    /// <param name="pulse">The pulse, with its level.</param>
    /// <param name="ticks256">Its foot [1/256 tick].</param>
    /// <returns>Whether there is a new value.</returns>
    public bool Add(in PulseEvent pulse, long ticks256)
    {
        long middle2 = (2L * pulse.LevelCodes) - pulse.AmplitudeCodes;
        if (pulse.AmplitudeCodes <= 0 || middle2 <= 0 || middle2 > int.MaxValue)
        {
            return false;
        }

        // 100,000 × A / (L − A/2), halved to fit.
        int half = LongDivision.Rounded((ulong)(uint)pulse.AmplitudeCodes * 100_000, (uint)middle2);
        _count = _window.Add(ticks256, pulse.StartsRun) ? _count : (byte)0;
        _values[_at] = (ushort)(half > ushort.MaxValue ? ushort.MaxValue : half);
        _at = (byte)((_at + 1) & (Most - 1));
        _count = (byte)(_count < Most ? _count + 1 : Most);
        if (_count < Least)
        {
            return false;
        }

        uint sum = 0;
        Word8 recent = default;
        for (int i = 0; i < _count; i++)
        {
            recent[i] = _values[(_at - 1 - i) & (Most - 1)];
            sum += (uint)recent[i];
        }

        // Movement makes single pulses large: mean and median part.
        int median = Median.OfUpTo8(((ReadOnlySpan<int>)recent)[.._count]);
        IsSteady = _count == Most && Sat.Abs32((int)sum - (_count * median)) <= Shift.Floor(_count * median, UnsteadyShift);

        _milliPercent = LongDivision.Rounded(2 * sum, _count);
        _quality = (byte)LongDivision.Rounded((ulong)pulse.Quality * _count, Most);
        return true;
    }
}
