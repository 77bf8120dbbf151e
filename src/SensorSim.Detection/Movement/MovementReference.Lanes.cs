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

    // What AdvanceAxis and EndStep do, an axis in each lane; the fourth stays zero. Samples of the grid, one at least, as long as it stays still.
    private int StepLanes(ReadOnlySpan<int> x, ReadOnlySpan<int> y, ReadOnlySpan<int> z)
    {
        // Raised by that no difference of powers is negative, so the logical shift rounds as the arithmetic one does; what was raised comes off behind it.
        const long Raised = 1L << 60;
        ref int held = ref MemoryMarshal.GetReference((Span<int>)_functions);
        ref int level = ref MemoryMarshal.GetReference((Span<int>)_gravity);
        ref long mean = ref MemoryMarshal.GetReference((Span<long>)_meanPowers);
        Vector128<uint> poleShift = Vector128.Create((uint)_poleShift);
        Vector128<uint> levelShift = Vector128.Create((uint)_levelShift);
        Vector128<int> half = Vector128.Create(1 << (_poleShift - 1));
        Vector128<int> levelHalf = Vector128.Create(1 << (_levelShift - 1));
        Vector128<int> gravity = Vector128.LoadUnsafe(ref level);
        Vector256<long> powers = Vector256.LoadUnsafe(ref mean);
        Load(ref held, out Vector128<int> old0, out Vector128<int> old1, out Vector128<int> old2, out Vector128<int> old3);
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
                gravity = value << 12;
            }

            Vector128<int> high = Narrow(value - ((gravity + Vector128.Create(1 << 11)) >> 12), Rail);
            gravity += Avx2.ShiftRightArithmeticVariable((high << 12) + levelHalf, levelShift);
            Vector128<int> now0 = old0 + Avx2.ShiftRightArithmeticVariable(high - old0 + half, poleShift);
            Vector128<int> now1 = AllPassLanes(old1, now0, old0, half, poleShift);
            Vector128<int> now2 = AllPassLanes(old2, now1, old1, half, poleShift);
            Vector128<int> now3 = AllPassLanes(old3, now2, old2, half, poleShift);
            old0 = now0;
            old1 = now1;
            old2 = now2;
            old3 = now3;
            done++;
            steps = unchecked(steps + 1);
            if ((steps & learningMask) == 0)
            {
                Vector256<long> power = Squares(now0) + Squares(now1) + Squares(now2) + Squares(now3);
                Vector256<long> raised = power - powers + Vector256.Create(Raised + (1L << (PowerShift - 1)));
                powers += (raised >>> PowerShift) - Vector256.Create(Raised >> PowerShift);
                powers = Vector256.Max(powers, power);
            }

            Vector128<int> coarse = high >> 4;
            Vector128<int> squares = (coarse * coarse) >> 2;
            squares += Sse2.Shuffle(squares, 0b01_00_11_10);
            squares += Sse2.Shuffle(squares, 0b10_11_00_01);
            meanSquare += Shift.Round(squares.ToScalar() - meanSquare, squareShift);
            isStill = IsStillAt(meanSquare, isStill);
        }
        while (isStill && done < x.Length);

        gravity.StoreUnsafe(ref level);
        powers.StoreUnsafe(ref mean);
        Store(ref held, old0, old1, old2, old3);
        _meanSquare = meanSquare;
        Steps = steps;
        bool wasStill = IsStill || done > 1;
        IsStill = isStill;
        KeepPowerBits(wasStill);
        return done;
    }

    // In the state the functions of an axis lie side by side, in the lanes those of a kind.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Load(
        ref int held, out Vector128<int> first, out Vector128<int> second, out Vector128<int> third, out Vector128<int> fourth)
    {
        Vector128<int> x = Vector128.LoadUnsafe(ref held);
        Vector128<int> y = Vector128.LoadUnsafe(ref held, Functions);
        Vector128<int> z = Vector128.LoadUnsafe(ref held, 2 * Functions);
        Vector128<long> low = Sse2.UnpackLow(x, y).AsInt64();
        Vector128<long> lowRest = Sse2.UnpackLow(z, Vector128<int>.Zero).AsInt64();
        Vector128<long> top = Sse2.UnpackHigh(x, y).AsInt64();
        Vector128<long> topRest = Sse2.UnpackHigh(z, Vector128<int>.Zero).AsInt64();
        first = Sse2.UnpackLow(low, lowRest).AsInt32();
        second = Sse2.UnpackHigh(low, lowRest).AsInt32();
        third = Sse2.UnpackLow(top, topRest).AsInt32();
        fourth = Sse2.UnpackHigh(top, topRest).AsInt32();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(ref int held, Vector128<int> first, Vector128<int> second, Vector128<int> third, Vector128<int> fourth)
    {
        Vector128<long> early = Sse2.UnpackLow(first, second).AsInt64();
        Vector128<long> late = Sse2.UnpackLow(third, fourth).AsInt64();
        Sse2.UnpackLow(early, late).AsInt32().StoreUnsafe(ref held);
        Sse2.UnpackHigh(early, late).AsInt32().StoreUnsafe(ref held, Functions);
        early = Sse2.UnpackHigh(first, second).AsInt64();
        late = Sse2.UnpackHigh(third, fourth).AsInt64();
        Sse2.UnpackLow(early, late).AsInt32().StoreUnsafe(ref held, 2 * Functions);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> AllPassLanes(
        Vector128<int> old, Vector128<int> input, Vector128<int> before, Vector128<int> half, Vector128<uint> poleShift)
    {
        Vector128<int> difference = old - input;
        return Narrow(difference - Avx2.ShiftRightArithmeticVariable(difference + half, poleShift) + before, FunctionRail);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> Narrow(Vector128<int> value, int limit) =>
        Vector128.Max(Vector128.Min(value, Vector128.Create(limit)), Vector128.Create(-limit));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<long> Squares(Vector128<int> functions)
    {
        Vector256<int> wide = Avx2.ConvertToVector256Int64(functions).AsInt32();
        return Avx2.Multiply(wide, wide);
    }
}
