// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Stage before the others, at the full rate: pacing spikes are cut out and a straight line is put in their place.</summary>
/// <remarks>
/// From 500 Hz on a spike is found in the signal itself: a place that stands out of its neighbours 4 ms away on both sides as much as out of
/// those 8 ms away, or nearly so. The top of any wave, a parabola, stands out four times as much of the farther ones, a triangle twice.
/// Below 500 Hz a spike is one or two samples long and no shape is left to see; there only the sensor's own circuit tells.
/// Input: codes of 24 bits.
/// Product: none.
/// Accumulator: 32 bits; mean excess Q21.10 with excesses clipped at 2^20.
/// Worst case: differences of 25 bits.
/// Output: codes, delayed by <see cref="Delay"/> samples; lines rounded toward minus infinity.
/// </remarks>
public partial struct SpikeFilter
{
    private const int Mask = Word32.Length - 1;
    private const int MeanBits = 10;
    private Word32 _held;
    private int _at;
    private int _arm;
    private int _armBits;
    private int _floor;
    private int _mean;
    private int _sinceFlag;

    /// <summary>Samples from input to output.</summary>
    public int Delay { get; private set; }

    /// <summary>How many samples before the newest the spike just found lies.</summary>
    public int Age { get; private set; }

    /// <summary>Sets lengths.</summary>
    /// <param name="rateHz">Rate [Hz].</param>
    /// <param name="codesPerMv256">Codes in a millivolt, times 256; 0 when unknown.</param>
    public void Start(int rateHz, int codesPerMv256)
    {
        _armBits = rateHz < 500 ? 0 : rateHz < 750 ? 1 : 2;
        _arm = _armBits == 0 ? 0 : 1 << _armBits;
        Delay = _arm == 0 ? 4 : 4 * _arm;

        // What stands out by less than 0.15 mV is no matter: a heart-rate meter need not count a QRS that small (IEC 60601-2-27, from memory).
        int tenth = Shift.Floor(codesPerMv256, 8) / 7;
        _floor = tenth > 8 ? tenth : 8;
        _mean = 0;
    }

    /// <summary>Behaves as if a constant had always come in.</summary>
    /// <param name="value">The constant.</param>
    public void Restart(int value)
    {
        _at = 0;
        _sinceFlag = 4;
        for (int i = 0; i < Word32.Length; i++)
        {
            _held[i] = value;
        }
    }

    /// <summary>Takes the next sample.</summary>
    /// <param name="code">The sample.</param>
    /// <param name="isFlagged">Whether the sensor's circuit saw a spike.</param>
    /// <param name="output">The sample <see cref="Delay"/> before it, without spikes.</param>
    /// <returns>Whether a spike was found.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next(int code, bool isFlagged, out int output)
    {
        int at = _at;
        _held[at & Mask] = code;
        bool isSpike = _arm != 0 && Search(at);
        if (isFlagged || _sinceFlag < 3)
        {
            isSpike |= Flagged(at, isFlagged);
        }

        output = _held[(at - Delay) & Mask];
        _at = (at + 1) & Mask;
        return isSpike;
    }

    /// <summary>Whether nothing is looked for and no flagged sample waits for its line: until the next flag the filter only delays.</summary>
    public readonly bool IsIdle => _arm == 0 && _sinceFlag >= 3;

    /// <summary>Takes the next sample while it is idle, one that is not flagged.</summary>
    /// <param name="code">The sample.</param>
    /// <returns>The sample <see cref="Delay"/> before it.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Delayed(int code)
    {
        int at = _at;
        _held[at & Mask] = code;
        _at = (at + 1) & Mask;
        return _held[(at - Delay) & Mask];
    }

    /// <summary>Flagged samples and the two after them become a line once the fourth has come.</summary>
    private bool Flagged(int at, bool isFlagged)
    {
        if (isFlagged && _sinceFlag >= 3)
        {
            _sinceFlag = 0;
            return false;
        }

        if (++_sinceFlag < 3)
        {
            return false;
        }

        int before = _held[(at - 4) & Mask];
        int step = _held[at & Mask] - before;
        for (int k = 1; k < 4; k++)
        {
            _held[(at - 4 + k) & Mask] = before + Shift.Floor(step * k, 2);
        }

        Age = 3;
        return true;
    }

    private bool Search(int at)
    {
        int arm = _arm;
        int centre = at - (2 * arm);
        int middle = _held[centre & Mask];
        int left = middle - _held[(centre - arm) & Mask];
        int right = middle - _held[(centre + arm) & Mask];
        if ((left ^ right) < 0)
        {
            _mean -= Shift.Floor(_mean, MeanBits);
            return false;
        }

        int excess = Smaller(left, right);
        int limit = Shift.Floor(_mean, MeanBits - 4) + _floor;
        int counted = excess < limit ? excess : limit;
        _mean += (counted < 1 << 20 ? counted : 1 << 20) - Shift.Floor(_mean, MeanBits);
        return excess > limit && Cut(centre, middle, excess);
    }

    private bool Cut(int centre, int middle, int excess)
    {
        int arm = _arm;
        int farLeft = middle - _held[(centre - (2 * arm)) & Mask];
        int farRight = middle - _held[(centre + (2 * arm)) & Mask];
        if (Sat.Abs32(farLeft) + Sat.Abs32(farRight) > 3 * excess)
        {
            return false;
        }

        int before = _held[(centre - arm) & Mask];
        int step = _held[(centre + arm) & Mask] - before;
        for (int k = 1; k < 2 * arm; k++)
        {
            _held[(centre - arm + k) & Mask] = before + Shift.Floor(step * k, _armBits + 1);
        }

        Age = 2 * arm;
        return true;
    }

    private static int Smaller(int a, int b)
    {
        int x = Sat.Abs32(a);
        int y = Sat.Abs32(b);
        return x < y ? x : y;
    }
}
