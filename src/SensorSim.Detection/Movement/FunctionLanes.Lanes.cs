// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Detection.Movement;

/// <summary>The functions of a <see cref="MovementReference"/> with an axis in each lane; the fourth lane stays zero.</summary>
/// <remarks>For processors with AVX2; ask <see cref="Avx2.IsSupported"/> before. In the state the functions of an axis lie side by side, here those of a kind.</remarks>
internal struct FunctionLanes
{
    private const int Each = MovementReference.Functions;

    private Vector128<int> _first;
    private Vector128<int> _second;
    private Vector128<int> _third;
    private Vector128<int> _fourth;

    /// <summary>Takes the functions out of the state.</summary>
    /// <param name="held">The functions, axis after axis.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static FunctionLanes Of(in Word12 held)
    {
        ref readonly int values = ref held[0];
        Vector128<int> x = Vector128.LoadUnsafe(in values);
        Vector128<int> y = Vector128.LoadUnsafe(in values, Each);
        Vector128<int> z = Vector128.LoadUnsafe(in values, 2 * Each);
        Vector128<long> low = Sse2.UnpackLow(x, y).AsInt64();
        Vector128<long> lowRest = Sse2.UnpackLow(z, Vector128<int>.Zero).AsInt64();
        Vector128<long> top = Sse2.UnpackHigh(x, y).AsInt64();
        Vector128<long> topRest = Sse2.UnpackHigh(z, Vector128<int>.Zero).AsInt64();
        return new FunctionLanes
        {
            _first = Sse2.UnpackLow(low, lowRest).AsInt32(),
            _second = Sse2.UnpackHigh(low, lowRest).AsInt32(),
            _third = Sse2.UnpackLow(top, topRest).AsInt32(),
            _fourth = Sse2.UnpackHigh(top, topRest).AsInt32(),
        };
    }

    /// <summary>Puts them back.</summary>
    /// <param name="held">Gets the functions, axis after axis.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void CopyTo(ref Word12 held)
    {
        ref int values = ref MemoryMarshal.GetReference((Span<int>)held);
        Vector128<long> early = Sse2.UnpackLow(_first, _second).AsInt64();
        Vector128<long> late = Sse2.UnpackLow(_third, _fourth).AsInt64();
        Sse2.UnpackLow(early, late).AsInt32().StoreUnsafe(ref values);
        Sse2.UnpackHigh(early, late).AsInt32().StoreUnsafe(ref values, Each);
        early = Sse2.UnpackHigh(_first, _second).AsInt64();
        late = Sse2.UnpackHigh(_third, _fourth).AsInt64();
        Sse2.UnpackLow(early, late).AsInt32().StoreUnsafe(ref values, 2 * Each);
    }

    /// <summary>A step of the grid: a low-pass and three all-passes after it, as <see cref="MovementReference"/> takes them for one axis.</summary>
    /// <param name="input">The acceleration without gravity.</param>
    /// <param name="half">Half of 2^<paramref name="poleShift"/>.</param>
    /// <param name="poleShift">The pole is 1 − 2^−poleShift.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Advance(Vector128<int> input, Vector128<int> half, Vector128<uint> poleShift)
    {
        Vector128<int> first = _first + Avx2.ShiftRightArithmeticVariable(input - _first + half, poleShift);
        Vector128<int> second = AllPass(_second, first, _first, half, poleShift);
        Vector128<int> third = AllPass(_third, second, _second, half, poleShift);
        _fourth = AllPass(_fourth, third, _third, half, poleShift);
        _first = first;
        _second = second;
        _third = third;
    }

    /// <summary>Of each axis the sum of the squares.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly Vector256<long> Powers() => Squares(_first) + Squares(_second) + Squares(_third) + Squares(_fourth);

    /// <summary>Clips to a symmetric range.</summary>
    /// <param name="value">Any words.</param>
    /// <param name="limit">Largest magnitude that passes.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector128<int> Narrow(Vector128<int> value, int limit) =>
        Vector128.Max(Vector128.Min(value, Vector128.Create(limit)), Vector128.Create(-limit));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> AllPass(
        Vector128<int> old, Vector128<int> input, Vector128<int> before, Vector128<int> half, Vector128<uint> poleShift)
    {
        Vector128<int> difference = old - input;
        return Narrow(difference - Avx2.ShiftRightArithmeticVariable(difference + half, poleShift) + before, MovementReference.FunctionRail);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<long> Squares(Vector128<int> functions)
    {
        Vector256<int> wide = Avx2.ConvertToVector256Int64(functions).AsInt32();
        return Avx2.Multiply(wide, wide);
    }
}
