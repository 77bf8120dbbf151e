// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>A converter with offset, gain error, a bow in its line, and dither: from physical values to codes.</summary>
/// <remarks>
/// code = round(x + bow · max(0, 1 − u²) + offset + dither) with x the ideal value in codes times 1 + gain error, and u the place of x in the
/// range, −1 to 1. Clamped and flagged as the ideal converter does.
/// </remarks>
internal sealed class ConverterErrors
{
    // Two uniform numbers of 16 bits from one word: their sum is a triangle of two codes in steps of 1/65,536, about this many steps.
    private const double PerHalf = 1.0 / 65536;
    private const double NoSum = 65535;

    // Adding and subtracting 1.5 × 2^52 rounds to whole numbers (ties to even), which then stand in the lowest bits.
    private const double RoundingShift = 6755399441055744.0;

    private static readonly uint[] s_noDither = new uint[DrawnNormals.Together];

    private readonly double _perSum;
    private readonly double _codesPerUnit;
    private readonly double _offset;
    private readonly double _bow;
    private readonly double _middle;
    private readonly double _perHalfRange;
    private readonly double _zeroCode;
    private readonly double _minimum;
    private readonly double _maximum;
    private readonly double _lowest;
    private readonly double _highest;
    private readonly int _zero;
    private DrawnWords? _dither;

    private ConverterErrors(KeyValues values, ulong seed, ChannelFormat format)
    {
        ConversionKeys keys = ConversionKeys.Of(format.Name);
        var random = new KeyedRandom(seed, "conversion.dither_" + "erigdxyz"[(int)format.Name]);
        _dither = values[keys.Dither] == "triangular" ? new DrawnWords(random) : null;
        _perSum = _dither is null ? 0 : PerHalf;
        _codesPerUnit = (1 + (values[keys.GainErrorPercent] * 0.01)) / format.UnitPerCode;
        _offset = values[keys.OffsetCodes];
        _bow = values[keys.NonlinearityCodes];
        _zeroCode = format.ZeroCode;
        _minimum = format.MinimumCode;
        _maximum = format.MaximumCode;
        _lowest = RoundingShift + (_minimum - _zeroCode);
        _highest = RoundingShift + (_maximum - _zeroCode);
        _zero = format.ZeroCode;
        double half = 1 << (format.Bits - 1);
        _middle = format.MinimumCode + half - format.ZeroCode;
        _perHalfRange = 1 / half;
    }

    /// <summary>The errors of a channel's converter, or null when it is ideal.</summary>
    public static ConverterErrors? Of(KeyValues values, ulong seed, ChannelFormat format)
    {
        ConversionKeys keys = ConversionKeys.Of(format.Name);
        bool isIdeal = values[keys.OffsetCodes] == 0 && values[keys.GainErrorPercent] == 0 && values[keys.NonlinearityCodes] == 0
            && values[keys.Dither] == "off";
        return isIdeal ? null : new ConverterErrors(values, seed, format);
    }

    /// <summary>Converts samples; arguments as for <see cref="ConversionStage.Convert"/>.</summary>
    public void Convert(ReadOnlySpan<double> analog, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        for (int done = 0; done < analog.Length;)
        {
            ReadOnlySpan<uint> draws = _dither is null ? s_noDither : _dither.From(firstIndex + done);
            int count = Math.Min(draws.Length, analog.Length - done);
            Convert(analog.Slice(done, count), codes.Slice(done, count), status.Slice(done, count), draws);
            done += count;
        }
    }

    /// <summary>An independent copy.</summary>
    public ConverterErrors Copy()
    {
        var copy = (ConverterErrors)MemberwiseClone();
        copy._dither = _dither?.Copy();
        return copy;
    }

    private void Convert(ReadOnlySpan<double> analog, Span<int> codes, Span<ushort> status, ReadOnlySpan<uint> draws)
    {
        codes = codes[..analog.Length];
        status = status[..analog.Length];
        draws = draws[..analog.Length];
        int last = analog.Length - Vector256<int>.Count;
        if (last < 0)
        {
            ConvertSome(analog, codes, status, draws);
            return;
        }

        ref double from = ref MemoryMarshal.GetReference(analog);
        ref uint drawn = ref MemoryMarshal.GetReference(draws);
        ref int to = ref MemoryMarshal.GetReference(codes);

        // Made once: in the loop they would be made each time.
        var lowest = Vector256.Create(_lowest);
        var highest = Vector256.Create(_highest);
        var zeroCode = Vector256.Create(_zero);
        var codesPerUnit = Vector256.Create(_codesPerUnit);
        var middle = Vector256.Create(_middle);
        var perHalfRange = Vector256.Create(_perHalfRange);
        var mostBow = Vector256.Create(_bow);
        var offset = Vector256.Create(_offset);
        var perSum = Vector256.Create(_perSum);

        // The last eight may be partly done already: the same codes once more.
        nuint end = (nuint)(uint)last;
        for (nuint i = 0; ;)
        {
            // The same operations as one by one; the codes stand in the lower halves of what the shift rounds.
            Vector256<uint> words = Vector256.LoadUnsafe(ref drawn, i);
            Vector256<int> sums = ((words & Vector256.Create(0xFFFFu)) + (words >>> 16)).AsInt32() - Vector256.Create((int)NoSum);
            Vector256<double> lower = Bent(Vector256.LoadUnsafe(ref from, i) * codesPerUnit, middle, perHalfRange, mostBow)
                + (offset + (Doubles(sums.GetLower()) * perSum)) + Vector256.Create(RoundingShift);
            Vector256<double> upper = Bent(Vector256.LoadUnsafe(ref from, i + 4) * codesPerUnit, middle, perHalfRange, mostBow)
                + (offset + (Doubles(sums.GetUpper()) * perSum)) + Vector256.Create(RoundingShift);
            Vector256<double> isLower = Vector256.LessThan(lower, lowest) | Vector256.GreaterThan(lower, highest);
            Vector256<double> isUpper = Vector256.LessThan(upper, lowest) | Vector256.GreaterThan(upper, highest);
            if ((isLower | isUpper).ExtractMostSignificantBits() != 0)
            {
                // No call in here: for it all would be kept in memory that stands in registers.
                lower = Vector256.ConditionalSelect(isLower, Vector256.ConditionalSelect(Vector256.LessThan(lower, lowest), lowest, highest), lower);
                upper = Vector256.ConditionalSelect(isUpper, Vector256.ConditionalSelect(Vector256.LessThan(upper, lowest), lowest, highest), upper);
                Flag(status, (int)i, isLower.ExtractMostSignificantBits() | (isUpper.ExtractMostSignificantBits() << 4));
            }

            (Vector256.Narrow(lower.AsInt64(), upper.AsInt64()) + zeroCode).StoreUnsafe(ref to, i);
            i += (nuint)Vector256<int>.Count;
            if (i <= end)
            {
                continue;
            }

            if (i == end + (nuint)Vector256<int>.Count)
            {
                return;
            }

            i = end;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Flag(Span<ushort> status, int first, uint isOutside)
    {
        for (; isOutside != 0; isOutside &= isOutside - 1)
        {
            status[first + BitOperations.TrailingZeroCount(isOutside)] |= (ushort)SampleStatus.OverRange;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Bent(Vector256<double> x, Vector256<double> middle, Vector256<double> perHalfRange, Vector256<double> mostBow)
    {
        Vector256<double> u = (x - middle) * perHalfRange;
        Vector256<double> inside = Vector256<double>.One - (u * u);
        return x + ((inside & Vector256.GreaterThan(inside, Vector256<double>.Zero)) * mostBow);
    }

    // One by one, clamped and flagged.
    private void ConvertSome(ReadOnlySpan<double> analog, Span<int> codes, Span<ushort> status, ReadOnlySpan<uint> draws)
    {
        for (int i = 0; i < analog.Length; i++)
        {
            double x = analog[i] * _codesPerUnit;
            double u = (x - _middle) * _perHalfRange;
            double bow = Math.Max(0, 1 - (u * u)) * _bow;
            double dither = ((double)(draws[i] & 0xFFFF) + (draws[i] >> 16) - NoSum) * _perSum;
            double rounded = Math.Round(x + bow + (_offset + dither)) + _zeroCode;
            double clamped = Math.Min(Math.Max(rounded, _minimum), _maximum);
            codes[i] = unchecked((int)clamped);
            status[i] |= (ushort)(rounded != clamped ? SampleStatus.OverRange : 0);
        }
    }

    private static Vector256<double> Doubles(Vector128<int> values) => Avx.IsSupported
        ? Avx.ConvertToVector256Double(values)
        : Vector256.ConvertToDouble(Vector256.Create(Vector128.WidenLower(values), Vector128.WidenUpper(values)));
}
