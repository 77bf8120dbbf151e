// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <summary>Whether the light of the room goes up and down evenly, as slowly as breath or heart, and how long one cycle takes.</summary>
/// <remarks>
/// <para>
/// A lamp that flickers hundreds of times a second comes out of the sampling as a slow wave, in the dark slot as in the others. Dark subtraction
/// leaves up to twice of it, for the slots lie apart; the dark slot shows it whole. Looked at once in a tenth of a second: what the mean level has
/// changed by since is, but for a factor, how far the dark samples of that tenth were from the level in the mean, so what is faster than 5 Hz falls out.
/// </para>
/// Input: level and swing of <see cref="RoomMean"/>, Q25.6.
/// Product: mean change × factor 28 + 8 bits, in 64 bits.
/// Accumulator: 32 bits.
/// Worst case: a change of the level clips at 2^27: a hundred thousand codes and more in each sample, which no sensor has.
/// Output: a length in 1/16 of a tenth, 35 to 720; one long division a cycle.
/// </remarks>
public struct RoomCycle
{
    /// <summary>Lowest rate of the dark slot [Hz]: below, a tenth has no mean.</summary>
    public const int MinimumRateHz = 20;

    /// <summary>Longest cycle that looks like a pulse [1/16 tenth]: 28 a minute, the slowest heart rate that is given.</summary>
    public const int LongestOfPulse16 = 21 * 16;

    // The fastest are 4.5 Hz, the slowest 0.22 Hz.
    private const int Shortest16 = 35;
    private const int Longest16 = 45 * 16;

    // So many cycles in a row, each within an eighth of the ones before: lamps that are switched and hands that pass do not come so evenly.
    private const byte Cycles = 3;
    private const int AlikeShift = 3;

    private const int Rail = (1 << 27) - 1;

    private int _level;
    private int _last;
    private int _mean;
    private short _since16;
    private short _length16;
    private byte _factor16;
    private byte _count;
    private bool _isBegun;
    private bool _wasBelow;

    /// <summary>Length of a cycle [1/16 of a tenth of a second]; 0 while there is none.</summary>
    public readonly int Length16 => _count >= Cycles ? _length16 : 0;

    /// <summary>Prepares for a stream.</summary>
    /// <param name="darkRateHz">Rate of the dark slot [Hz].</param>
    /// <param name="levelShift">The level has 2^−shift of each sample.</param>
    public void Start(int darkRateHz, int levelShift)
    {
        this = default;

        // From the change of the level in a tenth to the mean of what made it: 2^shift over the number of samples, which is 5 to 10.
        _factor16 = darkRateHz < MinimumRateHz ? (byte)0 : (byte)((160 << levelShift) / darkRateHz);
    }

    /// <summary>A tenth of a second is over.</summary>
    /// <param name="mean">Level and swing of the room.</param>
    public void Tenth(in RoomMean mean)
    {
        int change = Sat.Narrow(Sat.Sub32(mean.Level, _level), Rail);
        _level = mean.Level;
        if (!_isBegun)
        {
            _isBegun = true;
            return;
        }

        _mean += Shift.Round(Sat.Abs32(change) - _mean, 3);
        _wasBelow |= 2 * change < -_mean;
        _since16 += 16;
        if (_wasBelow && change >= 0 && _last < 0)
        {
            _wasBelow = false;
            Upward((short)LongDivision.Rounded((ulong)(uint)change << 4, (uint)(change - _last)));
        }

        _last = change;
        if (_since16 > Longest16 + 16)
        {
            _since16 = Longest16 + 16;
            _count = 0;
        }

        // It has to be half of all that moves the room, or it is something fast that a tenth of a second shows slowly.
        if (((long)_mean * _factor16) >> 3 < mean.Swing)
        {
            _count = 0;
        }
    }

    // It has passed its mean on the way up, so long ago.
    private void Upward(short ago16)
    {
        int length = _since16 - ago16;
        _since16 = ago16;
        if (length < Shortest16 || length > Longest16)
        {
            _count = 0;
        }
        else if (_count > 0 && Sat.Abs32(length - _length16) << AlikeShift <= _length16)
        {
            _count += _count < Cycles ? (byte)1 : (byte)0;
            _length16 += (short)Shift.Round(length - _length16, 2);
        }
        else
        {
            _count = 1;
            _length16 = (short)length;
        }
    }
}
