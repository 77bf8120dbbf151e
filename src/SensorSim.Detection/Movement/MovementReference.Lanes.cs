// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>The three axes side by side.</content>
public partial struct MovementReference
{
    /// <summary>Takes samples of the three axes as long as it is still.</summary>
    /// <param name="x">First axis, 32 samples at most.</param>
    /// <param name="y">Second axis, as many.</param>
    /// <param name="z">Third axis, as many.</param>
    /// <param name="stepped">Bit i: it has made a step with sample i.</param>
    /// <returns>How many were taken: all, or up to the one after which it is not still any more.</returns>
    public int TakeStill(ReadOnlySpan<int> x, ReadOnlySpan<int> y, ReadOnlySpan<int> z, out uint stepped)
    {
        int done = 0;
        stepped = 0;
        if (Avx2.IsSupported && _decimation == 1 && IsStill && x.Length > 0)
        {
            done = StepLanes(x, y, z);
            stepped = uint.MaxValue >> (32 - done);
            return done;
        }

        while (done < x.Length && IsStill)
        {
            int before = Steps;
            Next(x[done], y[done], z[done]);
            stepped |= Steps == before ? 0u : 1u << done;
            done++;
        }

        return done;
    }

    // What Next does, an axis in each lane and the fourth zero: samples of the grid, one at least, and on as long as it stays still. Everything that a
    // sample changes is in registers meanwhile.
    private int StepLanes(ReadOnlySpan<int> x, ReadOnlySpan<int> y, ReadOnlySpan<int> z)
    {
        ref int levels = ref MemoryMarshal.GetReference((Span<int>)_gravity);
        ref long means = ref MemoryMarshal.GetReference((Span<long>)_meanPowers);
        Vector128<uint> poleShift = Vector128.Create((uint)_poleShift);
        Vector128<uint> levelShift = Vector128.Create((uint)_levelShift);
        Vector128<int> half = Vector128.Create(1 << (_poleShift - 1));
        Vector128<int> levelHalf = Vector128.Create(1 << (_levelShift - 1));
        Vector128<int> gravity = Vector128.LoadUnsafe(ref levels);
        Vector256<long> powers = Vector256.LoadUnsafe(ref means);
        FunctionLanes functions = FunctionLanes.Of(_functions);
        int meanSquare = _meanSquare;
        int squareShift = _levelShift;
        int steps = Steps;
        int learningMask = _learningMask;
        bool isStill = IsStill;
        int done = 0;
        do
        {
            Vector128<int> value = Vector128.Create(Scaled(x[done]), Scaled(y[done]), Scaled(z[done]), 0);
            if (_isFresh)
            {
                _isFresh = false;
                gravity = value << GravityBits;
            }

            // WithoutGravity
            Vector128<int> high = FunctionLanes.Narrow(value - ((gravity + Vector128.Create(1 << (GravityBits - 1))) >> GravityBits), Rail);
            gravity += Avx2.ShiftRightArithmeticVariable((high << GravityBits) + levelHalf, levelShift);

            // Advance and EndStep
            functions.Advance(high, half, poleShift);
            steps = unchecked(steps + 1);
            if ((steps & learningMask) == 0)
            {
                powers = MeanPowers(powers, functions.Powers());
            }

            meanSquare += Shift.Round(SquareOf(high) - meanSquare, squareShift);
            isStill = IsStillAt(meanSquare, isStill);
            done++;
        }
        while (isStill && done < x.Length);

        functions.CopyTo(ref _functions);
        gravity.StoreUnsafe(ref levels);
        powers.StoreUnsafe(ref means);
        _meanSquare = meanSquare;
        Steps = steps;
        bool wasStill = IsStill || done > 1;
        IsStill = isStill;
        KeepPowerBits(wasStill);
        return done;
    }

    // AddPower. Raised by 2^60 no difference is negative, so the logical shift rounds as the arithmetic one does; what was raised comes off behind it.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<long> MeanPowers(Vector256<long> means, Vector256<long> powers)
    {
        const long Raised = 1L << 60;
        Vector256<long> raised = powers - means + Vector256.Create(Raised + (1L << (PowerShift - 1)));
        means += (raised >>> PowerShift) - Vector256.Create(Raised >> PowerShift);
        return Vector256.Max(means, powers);
    }

    // What AdvanceAxis returns, of all axes together.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int SquareOf(Vector128<int> high)
    {
        Vector128<int> coarse = high >> 4;
        Vector128<int> squares = (coarse * coarse) >> 2;
        squares += Sse2.Shuffle(squares, 0b01_00_11_10);
        squares += Sse2.Shuffle(squares, 0b10_11_00_01);
        return squares.ToScalar();
    }
}
