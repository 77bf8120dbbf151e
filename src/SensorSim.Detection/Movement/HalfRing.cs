// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>The last eight seconds of a signal in halves of a word with one common exponent.</summary>
/// <remarks>
/// Input: 30 bits.
/// Product: none.
/// Accumulator: none.
/// Worst case: what does not fit into 15 bits makes the exponent grow, by a pass over the ring.
/// Output: value / 2^exponent, rounded to nearest, at most 2^14; at least 2^11 somewhere after <see cref="Settle"/> unless the signal is weaker.
/// </remarks>
public struct HalfRing
{
    private const int High = 1 << 14;
    private const int Low = 1 << 11;
    private Half104 _held;
    private int _at;
    private int _length;

    /// <summary>A word stands for word × 2^exponent.</summary>
    public int Exponent { get; private set; }

    /// <summary>Sets the length and fills with 0.</summary>
    /// <param name="length">1 to 104.</param>
    public void Restart(int length)
    {
        this = default;
        _length = length;
    }

    /// <summary>Value held for a number of steps.</summary>
    /// <param name="age">0 for the oldest, length − 1 for the latest.</param>
    public readonly int this[int age]
    {
        get
        {
            int at = _at + age;
            return _held[at < _length ? at : at - _length];
        }
    }

    /// <summary>Takes the next value in the place of the oldest.</summary>
    /// <param name="value">The value.</param>
    public void Add(int value)
    {
        int scaled = Shift.Round(value, Exponent);
        while (scaled > High || scaled < -High)
        {
            Rescale(1);
            scaled = Shift.Round(value, Exponent);
        }

        _held[_at] = (short)scaled;
        _at = _at + 1 == _length ? 0 : _at + 1;
    }

    /// <summary>Gives back bits that the signal does not need any more; for use once a window.</summary>
    public void Settle()
    {
        int largest = 0;
        for (int i = 0; i < _length; i++)
        {
            int size = _held[i] < 0 ? -_held[i] : _held[i];
            largest = size > largest ? size : largest;
        }

        while (Exponent > 0 && largest < Low)
        {
            Rescale(-1);
            largest <<= 1;
        }
    }

    private void Rescale(int bits)
    {
        Exponent += bits;
        for (int i = 0; i < _length; i++)
        {
            _held[i] = (short)(bits > 0 ? Shift.Round(_held[i], 1) : _held[i] << 1);
        }
    }
}
