// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Side stage: how much of the watched slope is noise, from third differences where the pulse is flat.</summary>
/// <remarks>
/// Input: working samples of 27 bits.
/// Product: mean magnitude × a Q4.8 factor, once a block.
/// Accumulator: magnitudes clipped at 2^25, at most 20 of them: 30 bits.
/// Worst case: all at the clip.
/// Output: standard deviation of the watched slope for white noise, in its format; the third lowest of eight blocks of 100 ms, because
/// upstrokes fill at most half of them. Reads white noise some 10 to 20 % low.
/// </remarks>
public struct PulseNoise
{
    private const int Limit = 1 << 25;
    private Word8 _blocks;
    private int _at;
    private int _sum;
    private int _taken;
    private int _length;
    private int _factor;
    private int _value;
    private int _first;
    private int _second;

    /// <summary>The noise, in the format of the slope.</summary>
    public int Level { get; private set; }

    /// <summary>Sets lengths and drops what was learned. Divides: at start-up only.</summary>
    /// <param name="windows">Lengths.</param>
    public void Start(in PulseWindows windows)
    {
        this = default;
        _length = windows.NoiseBlock;
        int squares = windows.WatchArm * (windows.WatchArm + 1) * ((2 * windows.WatchArm) + 1) / 3;

        // The slope Σ k x has the deviation σ √Σk²; the mean magnitude of a third difference is √20 σ × √(2/π) = 3.568 σ.
        int root16 = (int)IntegerRoot.Floor((uint)squares << 8);
        _factor = root16 * 16 * 1000 / (3568 * _length);
    }

    /// <summary>The level of the samples has jumped.</summary>
    /// <param name="value">Behaves as if this constant had come in.</param>
    public void Restart(int value)
    {
        _value = value;
        _first = 0;
        _second = 0;
    }

    /// <summary>Behaves as if everything that came in had been higher.</summary>
    /// <param name="by">By how much.</param>
    public void Raise(int by) => _value = unchecked(_value + by);

    /// <summary>Takes the next working sample.</summary>
    /// <param name="value">The sample.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next(int value)
    {
        unchecked
        {
            int first = value - _value;
            int second = first - _first;
            int third = second - _second;
            _value = value;
            _first = first;
            _second = second;
            third = third < 0 ? -third : third;
            _sum += third > Limit ? Limit : third;
        }

        if (++_taken >= _length)
        {
            Close();
        }
    }

    private void Close()
    {
        _blocks[_at & (Word8.Length - 1)] = _sum;
        _at++;
        _sum = 0;
        _taken = 0;
        int lowest = Ranks.OfEight(_blocks, 2);
        int shift = Shift.Needed(lowest, 18);
        ulong product = (ulong)(uint)Shift.Floor(lowest, shift) * (uint)_factor;
        Level = (int)((product << shift) >> 8 > int.MaxValue ? int.MaxValue : (product << shift) >> 8);
    }
}
