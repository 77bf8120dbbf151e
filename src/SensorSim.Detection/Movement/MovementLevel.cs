// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>How much the sensor moves: root mean square of the acceleration without gravity, over about a second.</summary>
/// <remarks>
/// Input: codes of up to 20 bits, three axes.
/// Product: code × factor of 26 bits; squares of 15 bits.
/// Accumulator: mean square Q30.8 in 64 bits; levels of gravity Q15.12 in 32 bits.
/// Worst case: ±16 g on each axis: 3 × 2^28.
/// Output: thousandths of g, floor; renewed eight times a second.
/// </remarks>
public partial struct MovementLevel
{
    /// <summary>Above this it is not still any more [mg]; a sensor's noise is some mg, typing begins at 20 mg.</summary>
    public const int StillUpToMg = 20;

    /// <summary>Below this it is still [mg].</summary>
    public const int StillBelowMg = 12;

    /// <summary>Above this it moves [mg]; steps are 200 mg and more.</summary>
    public const int MovesAboveMg = 60;

    /// <summary>Below this it does not move any more [mg].</summary>
    public const int MovesDownToMg = 40;

    private const int Rail = (1 << 14) - 1;

    private Word4 _gravity;
    private long _meanSquare;
    private int _scale;
    private int _gravityShift;
    private int _meanShift;
    private int _every;
    private int _taken;
    private bool _isFresh;

    /// <summary>Root mean square of the movement [mg].</summary>
    public int LevelMg { get; private set; }

    /// <summary>Whether there is hardly any movement.</summary>
    public bool IsStill { get; private set; }

    /// <summary>Whether there is so much that it may disturb.</summary>
    public bool IsMoving { get; private set; }

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Rate of the accelerometer [Hz], 12 to 1600.</param>
    /// <param name="codesPerG">Codes for 1 g, 16 to 2^19.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int rateHz, int codesPerG)
    {
        if (!MovementReference.IsAllowed(rateHz, codesPerG))
        {
            return false;
        }

        this = default;
        _scale = (int)((1000L << 16) / codesPerG);
        _gravityShift = MovementReference.LevelShift(rateHz);
        _meanShift = Shift.Needed(rateHz + (rateHz >> 1), 1);
        _every = (rateHz + 7) / 8;
        _isFresh = true;
        IsStill = true;
        return true;
    }

    /// <summary>Takes the next sample of the three axes.</summary>
    /// <param name="x">First axis.</param>
    /// <param name="y">Second axis.</param>
    /// <param name="z">Third axis.</param>
    /// <param name="probe">Sees the level.</param>
    public void Next<TProbe>(int x, int y, int z, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int square;
        if (Avx2.IsSupported && !_isFresh)
        {
            square = SquaresInLanes(x, y, z);
        }
        else
        {
            square = Square(0, x) + Square(1, y) + Square(2, z);
            _isFresh = false;
        }

        _meanSquare += Wide.RoundWithRoom(((long)square << 8) - _meanSquare, _meanShift);
        if (++_taken < _every)
        {
            return;
        }

        _taken = 0;
        LevelMg = (int)IntegerRoot.Floor((uint)(_meanSquare >> 8));
        IsStill = LevelMg < (IsStill ? StillUpToMg : StillBelowMg);
        IsMoving = LevelMg > (IsMoving ? MovesDownToMg : MovesAboveMg);
        probe.See(ProbePoint.MovementLevel, LevelMg);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int Square(int axis, int code)
    {
        int value = Wide.Narrow(Wide.RoundWithRoom((long)code * _scale, 16), Rail);
        if (_isFresh)
        {
            _gravity[axis] = value << 12;
        }

        int high = Sat.Narrow(value - Shift.RoundWithRoom(_gravity[axis], 12), Rail);
        _gravity[axis] += Shift.RoundWithRoom((value << 12) - _gravity[axis], _gravityShift);
        return high * high;
    }
}
