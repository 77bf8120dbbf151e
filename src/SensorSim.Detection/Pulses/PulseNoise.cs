// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Side stage, twice a second: how much of the watched slope is noise, from third differences where the pulse is flat.</summary>
/// <remarks>
/// Input: working samples of 27 bits.
/// Product: mean magnitude × a UQ4.8 factor, 38 bits.
/// Accumulator: magnitudes clipped at 2^25, at most 20 of them: 30 bits.
/// Worst case: all at the clip.
/// Output: standard deviation of the watched slope for white noise, in its format; the fourth lowest of eight blocks of 100 ms, because
/// upstrokes fill at most half of them. Reads white noise some 10 % low and scatters by 15 %.
/// </remarks>
public struct PulseNoise
{
    private const int Mask = Word256.Length - 1;
    private const int Limit = 1 << 25;
    private const int BlocksAtOnce = 4;
    private Word8 _blocks;
    private int _at;
    private int _factor;

    /// <summary>The noise, in the format of the slope.</summary>
    public int Level { get; private set; }

    /// <summary>Sets lengths and drops what was learned. Divides: at start-up only.</summary>
    /// <param name="windows">Lengths.</param>
    public void Start(in PulseWindows windows)
    {
        this = default;
        int squares = windows.WatchArm * (windows.WatchArm + 1) * ((2 * windows.WatchArm) + 1) / 3;

        // The slope Σ k x has the deviation σ √Σk²; the mean magnitude of a third difference is √20 σ × √(2/π) = 3.568 σ.
        int root16 = (int)IntegerRoot.Floor((uint)squares << 8);
        _factor = root16 * 16 * 1000 / (3568 * windows.NoiseBlock);
    }

    /// <summary>Looks at the last 400 ms and estimates anew.</summary>
    /// <param name="held">The latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="at">Place of the latest.</param>
    /// <param name="w">Lengths.</param>
    public void Estimate(in Word256 held, int at, in PulseWindows w)
    {
        for (int block = 0; block < BlocksAtOnce; block++)
        {
            _blocks[_at & (Word8.Length - 1)] = Magnitudes(held, at - (block * w.NoiseBlock), w.NoiseBlock);
            _at++;
        }

        int lowest = Ranks.OfEight(_blocks, 3);
        int shift = Shift.Needed(lowest, 18);
        ulong product = ((ulong)(uint)Shift.Floor(lowest, shift) * (uint)_factor) << shift;
        Level = product >> 8 > int.MaxValue ? int.MaxValue : (int)(product >> 8);
    }

    /// <summary>Sum of the magnitudes of third differences, back from a place.</summary>
    private static int Magnitudes(in Word256 held, int at, int count)
    {
        int newest = held[at & Mask];
        int second = held[(at - 1) & Mask];
        int third = held[(at - 2) & Mask];
        int sum = 0;
        for (int i = 3; i < count + 3; i++)
        {
            int oldest = held[(at - i) & Mask];
            int difference = Sat.Abs32(unchecked(newest - oldest - (3 * (second - third))));
            sum += difference > Limit ? Limit : difference;
            newest = second;
            second = third;
            third = oldest;
        }

        return sum;
    }
}
