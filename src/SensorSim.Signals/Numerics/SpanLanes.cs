// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Signals.Numerics;

/// <summary>Plain arithmetic on whole stretches of samples, four at a time and the rest one by one: the same bits for every cut.</summary>
public static class SpanLanes
{
    private const int Count = 4;

    /// <summary>values[i] = values[i] × factor.</summary>
    public static void Multiply(Span<double> values, double factor)
    {
        int whole = values.Length & -Count;
        ref double v = ref MemoryMarshal.GetReference(values);
        var f = Vector256.Create(factor);
        for (nuint i = 0; i < (nuint)(uint)whole; i += Count)
        {
            (Vector256.LoadUnsafe(ref v, i) * f).StoreUnsafe(ref v, i);
        }

        for (int i = whole; i < values.Length; i++)
        {
            values[i] *= factor;
        }
    }

    /// <summary>values[i] = values[i] + term.</summary>
    public static void Add(Span<double> values, double term)
    {
        int whole = values.Length & -Count;
        ref double v = ref MemoryMarshal.GetReference(values);
        var t = Vector256.Create(term);
        for (nuint i = 0; i < (nuint)(uint)whole; i += Count)
        {
            (Vector256.LoadUnsafe(ref v, i) + t).StoreUnsafe(ref v, i);
        }

        for (int i = whole; i < values.Length; i++)
        {
            values[i] += term;
        }
    }

    /// <summary>values[i] = (factor × values[i]) + term.</summary>
    /// <param name="values">Changed.</param>
    /// <param name="factor">The factor.</param>
    /// <param name="term">The term.</param>
    public static void MultiplyThenAdd(Span<double> values, double factor, double term)
    {
        int whole = values.Length & -Count;
        ref double v = ref MemoryMarshal.GetReference(values);
        var f = Vector256.Create(factor);
        var t = Vector256.Create(term);
        for (nuint i = 0; i < (nuint)(uint)whole; i += Count)
        {
            ((Vector256.LoadUnsafe(ref v, i) * f) + t).StoreUnsafe(ref v, i);
        }

        for (int i = whole; i < values.Length; i++)
        {
            values[i] = (factor * values[i]) + term;
        }
    }

    /// <summary>values[i] = values[i] + (factor × others[i]).</summary>
    /// <param name="values">Changed.</param>
    /// <param name="others">At least as long.</param>
    /// <param name="factor">The factor.</param>
    public static void AddProduct(Span<double> values, ReadOnlySpan<double> others, double factor)
    {
        others = others[..values.Length];
        int whole = values.Length & -Count;
        ref double v = ref MemoryMarshal.GetReference(values);
        ref double o = ref MemoryMarshal.GetReference(others);
        var f = Vector256.Create(factor);
        for (nuint i = 0; i < (nuint)(uint)whole; i += Count)
        {
            (Vector256.LoadUnsafe(ref v, i) + (Vector256.LoadUnsafe(ref o, i) * f)).StoreUnsafe(ref v, i);
        }

        for (int i = whole; i < values.Length; i++)
        {
            values[i] += factor * others[i];
        }
    }

    /// <summary>values[i] = values[i] + (factors[i] × others[i]).</summary>
    /// <param name="values">Changed.</param>
    /// <param name="others">At least as long.</param>
    /// <param name="factors">At least as long.</param>
    public static void AddProduct(Span<double> values, ReadOnlySpan<double> others, ReadOnlySpan<double> factors)
    {
        others = others[..values.Length];
        factors = factors[..values.Length];
        int whole = values.Length & -Count;
        ref double v = ref MemoryMarshal.GetReference(values);
        ref double o = ref MemoryMarshal.GetReference(others);
        ref double f = ref MemoryMarshal.GetReference(factors);
        for (nuint i = 0; i < (nuint)(uint)whole; i += Count)
        {
            (Vector256.LoadUnsafe(ref v, i) + (Vector256.LoadUnsafe(ref f, i) * Vector256.LoadUnsafe(ref o, i)))
                .StoreUnsafe(ref v, i);
        }

        for (int i = whole; i < values.Length; i++)
        {
            values[i] += factors[i] * others[i];
        }
    }

    /// <summary>words[i] = words[i] | bits.</summary>
    public static void Or(Span<ushort> words, ushort bits)
    {
        int i = 0;
        ref ushort w = ref MemoryMarshal.GetReference(words);
        var b = Vector128.Create(bits);
        for (; i + Vector128<ushort>.Count <= words.Length; i += Vector128<ushort>.Count)
        {
            (Vector128.LoadUnsafe(ref w, (nuint)i) | b).StoreUnsafe(ref w, (nuint)i);
        }

        for (; i < words.Length; i++)
        {
            words[i] |= bits;
        }
    }
}
