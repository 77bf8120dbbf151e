// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>What one kind of beats looks like: sixteen slopes, and how large they are.</summary>
/// <remarks>
/// Input: slopes of 12 bits and sign, in units that differ from beat to beat (the shape is kept, not the size).
/// Product: 13 × 13 bits.
/// Accumulator: 32 bits; sixteen products of 24 bits and sign stay below 2^29.
/// Worst case: 16 × 2^24 = 2^28.
/// Output: likeness in 1/256 (correlation of the slopes), size in slopes.
/// </remarks>
public partial struct BeatTemplate
{
    private Slopes16 _slopes;
    private Word8 _sizes;
    private int _energy;
    private uint _root;
    private int _sizeAt;

    /// <summary>Beats in it, up to 8.</summary>
    public int Count { get; private set; }

    /// <summary>Typical size, the median of eight.</summary>
    public int Size { get; private set; }

    /// <summary>How far its slopes reach from their centre, see <see cref="SpreadOf"/>.</summary>
    public int Spread { get; private set; }

    /// <summary>Sum of the squares of the slopes.</summary>
    /// <param name="slopes">Slopes.</param>
    public static int Energy(in Slopes16 slopes)
    {
        if (Avx2.IsSupported)
        {
            return Products(slopes, slopes);
        }

        int sum = 0;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            sum += slopes[i] * slopes[i];
        }

        return sum;
    }

    /// <summary>Sum of the products with the template.</summary>
    /// <param name="slopes">Slopes.</param>
    public readonly int Dot(in Slopes16 slopes)
    {
        if (Avx2.IsSupported)
        {
            return Products(slopes, _slopes);
        }

        int sum = 0;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            sum += slopes[i] * _slopes[i];
        }

        return sum;
    }

    /// <summary>Sum of the products of the template with slopes from a place on.</summary>
    /// <param name="area">Slopes, 12 bits and sign.</param>
    /// <param name="from">The place, 0 to 16.</param>
    public readonly int Dot(in Word32 area, int from)
    {
        if (Avx2.IsSupported)
        {
            return Products(area, from, _slopes);
        }

        int sum = 0;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            sum += area[from + i] * _slopes[i];
        }

        return sum;
    }

    /// <summary>Correlation of the slopes [1/256] from sums of products; one division.</summary>
    /// <param name="dot">Products with the template.</param>
    /// <param name="root">Root of the squares.</param>
    public readonly int Fit(int dot, uint root)
    {
        // Roots have up to 14 bits each.
        uint below = _root * root;
        int fit = below == 0 ? 0 : LongDivision.Rounded((ulong)Sat.Abs32(dot) << 8, below);
        return dot < 0 ? -fit : fit;
    }

    /// <summary>Size of the part that is like the template; one division.</summary>
    /// <param name="dot">Products with the template.</param>
    /// <param name="scale">Shift of the slopes.</param>
    public readonly int SizeOf(int dot, int scale) =>
        dot <= 0 ? 0 : LongDivision.Rounded((ulong)dot << scale, _root == 0 ? 1 : _root);

    /// <summary>Forgets everything and takes one beat.</summary>
    /// <param name="slopes">Its slopes.</param>
    /// <param name="scale">Their shift.</param>
    public void Begin(in Slopes16 slopes, int scale)
    {
        _slopes = slopes;
        Count = 1;
        Refresh();
        int size = SizeOf(_energy, scale);
        for (int i = 0; i < Word8.Length; i++)
        {
            _sizes[i] = size;
        }

        Size = size;
    }

    /// <summary>Takes one more beat: an eighth of it, more while there are few.</summary>
    /// <param name="slopes">Its slopes.</param>
    /// <param name="size">Its size.</param>
    public void Add(in Slopes16 slopes, int size)
    {
        int shift = Count < 2 ? 1 : Count < 4 ? 2 : 3;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            _slopes[i] += (short)Shift.Round(slopes[i] - _slopes[i], shift);
        }

        Count += Count < 8 ? 1 : 0;
        _sizes[_sizeAt & (Word8.Length - 1)] = size;
        _sizeAt++;
        Size = Median.OfUpTo8(_sizes);
        Refresh();
    }

    /// <summary>How far the slopes reach from their centre: variance of their places, weighted by their squares [1/16 step²]; two divisions.</summary>
    /// <param name="slopes">Slopes.</param>
    public static int SpreadOf(in Slopes16 slopes)
    {
        if (Avx2.IsSupported)
        {
            Moments(slopes, out int sum, out int moment, out long squared);
            return SpreadFrom(sum, moment, squared);
        }

        int first = 0;
        long second = 0;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            int square = slopes[i] * slopes[i];
            int at = i - 7;
            first += Shift.Floor(square, 4) * at;
            second += (long)square * (at * at);
        }

        return SpreadFrom(Energy(slopes), first, second);
    }

    private static int SpreadFrom(int energy, int first, long second)
    {
        int below = Shift.Floor(energy, 4) + 1;
        int centre = LongDivision.Rounded((ulong)Sat.Abs32(first) << 4, (uint)below);
        int mean = LongDivision.Rounded((ulong)second, (uint)below);
        return mean - Shift.Floor(centre * centre, 4);
    }

    private void Refresh()
    {
        _energy = Energy(_slopes);
        _root = IntegerRoot.Floor((uint)_energy);
        Spread = SpreadOf(_slopes);
    }
}
