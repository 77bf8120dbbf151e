// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Detection.Movement;

/// <content>The three axes side by side.</content>
public partial struct MovementReference
{
    // What AdvanceAxis does, an axis in each lane; the fourth stays zero.
    private int AdvanceLanes(int first, int second, int third)
    {
        ref int held = ref MemoryMarshal.GetReference((Span<int>)_functions);
        ref int level = ref MemoryMarshal.GetReference((Span<int>)_gravity);
        Vector128<int> value = Vector128.Create(first, second, third, 0);
        Vector128<int> gravity = _isFresh ? value << 12 : Vector128.LoadUnsafe(ref level);
        Vector128<int> high = Narrow(value - ((gravity + Vector128.Create(1 << 11)) >> 12), Rail);
        gravity += ((high << 12) + Vector128.Create(1 << (_levelShift - 1))) >> _levelShift;
        gravity.StoreUnsafe(ref level);

        // In the state the functions of an axis lie side by side, here those of a kind.
        Vector128<int> x = Vector128.LoadUnsafe(ref held);
        Vector128<int> y = Vector128.LoadUnsafe(ref held, Functions);
        Vector128<int> z = Vector128.LoadUnsafe(ref held, 2 * Functions);
        Vector128<long> low = Sse2.UnpackLow(x, y).AsInt64();
        Vector128<long> lowRest = Sse2.UnpackLow(z, Vector128<int>.Zero).AsInt64();
        Vector128<long> top = Sse2.UnpackHigh(x, y).AsInt64();
        Vector128<long> topRest = Sse2.UnpackHigh(z, Vector128<int>.Zero).AsInt64();
        Vector128<int> old0 = Sse2.UnpackLow(low, lowRest).AsInt32();
        Vector128<int> old1 = Sse2.UnpackHigh(low, lowRest).AsInt32();
        Vector128<int> old2 = Sse2.UnpackLow(top, topRest).AsInt32();
        Vector128<int> old3 = Sse2.UnpackHigh(top, topRest).AsInt32();

        Vector128<int> half = Vector128.Create(1 << (_poleShift - 1));
        Vector128<int> now0 = old0 + ((high - old0 + half) >> _poleShift);
        Vector128<int> now1 = AllPassLanes(old1, now0, old0, half);
        Vector128<int> now2 = AllPassLanes(old2, now1, old1, half);
        Vector128<int> now3 = AllPassLanes(old3, now2, old2, half);

        Vector128<long> early = Sse2.UnpackLow(now0, now1).AsInt64();
        Vector128<long> late = Sse2.UnpackLow(now2, now3).AsInt64();
        Sse2.UnpackLow(early, late).AsInt32().StoreUnsafe(ref held);
        Sse2.UnpackHigh(early, late).AsInt32().StoreUnsafe(ref held, Functions);
        early = Sse2.UnpackHigh(now0, now1).AsInt64();
        late = Sse2.UnpackHigh(now2, now3).AsInt64();
        Sse2.UnpackLow(early, late).AsInt32().StoreUnsafe(ref held, 2 * Functions);

        Vector128<int> coarse = high >> 4;
        Vector128<int> squares = (coarse * coarse) >> 2;
        squares += Sse2.Shuffle(squares, 0b01_00_11_10);
        return squares.GetElement(0) + squares.GetElement(1);
    }

    private readonly Vector128<int> AllPassLanes(Vector128<int> old, Vector128<int> input, Vector128<int> before, Vector128<int> half)
    {
        Vector128<int> difference = old - input;
        return Narrow(difference - ((difference + half) >> _poleShift) + before, FunctionRail);
    }

    private static Vector128<int> Narrow(Vector128<int> value, int limit) =>
        Vector128.Max(Vector128.Min(value, Vector128.Create(limit)), Vector128.Create(-limit));

    // Four squares of 64 bits at once.
    private void FindPowersLanes()
    {
        ref int held = ref MemoryMarshal.GetReference((Span<int>)_functions);
        Vector256<long> x = Squares(Vector128.LoadUnsafe(ref held));
        Vector256<long> y = Squares(Vector128.LoadUnsafe(ref held, Functions));
        Vector256<long> z = Squares(Vector128.LoadUnsafe(ref held, 2 * Functions));
        Vector256<long> pairs = Avx2.UnpackLow(x, y) + Avx2.UnpackHigh(x, y);
        Vector128<long> both = pairs.GetLower() + pairs.GetUpper();
        AddPower(0, both.GetElement(0));
        AddPower(1, both.GetElement(1));
        Vector128<long> last = z.GetLower() + z.GetUpper();
        AddPower(2, last.GetElement(0) + last.GetElement(1));
    }

    private static Vector256<long> Squares(Vector128<int> functions)
    {
        Vector256<int> wide = Avx2.ConvertToVector256Int64(functions).AsInt32();
        return Avx2.Multiply(wide, wide);
    }
}
