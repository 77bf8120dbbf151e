// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>The strongest rate from 4 to 40 per minute in a series of half seconds: a discrete Fourier transform at each whole rate.</summary>
/// <remarks>
/// <para>A straight line is taken off first; the window is Welch's parabola n (63 − n) (Welch 1967), which needs no table.</para>
/// Input: 64 values of 8 bits.
/// Product: detrended value Q9.4 (13 bits) × window (10 bits): 23 bits; less 4 bits, up to six folded (21 bits), × cosine Q1.14: 36 bits.
/// Accumulator: 64 bits for the sum, 39 bits; less 16 bits and squared: 46 bits, shortened together to 29.
/// Worst case: a square wave of full range.
/// Output: rate in 1/1000 per minute by a parabola through three powers; clarity: share of the power within ±3 per minute, 0 to 255. 1,250 products for
/// each of three series, every 5 s.
/// </remarks>
public partial struct BreathSpectrum
{
    private const int LowestRate = 4;
    private const int HighestRate = 40;
    private const int Rates = HighestRate - LowestRate + 1;
    private const int Turn = 120; // values in a cycle of 1 per minute
    private const int HalfTurnRate = Turn / 2;
    private const int Reach = 3;
    private const int PowerBits = 29;

    /// <summary>The strongest rate [1/1000 per minute].</summary>
    public int RateMilli { get; private set; }

    /// <summary>How much of the power lies round it, 0 to 255; 0 when there is no top inside the range.</summary>
    public int Clarity { get; private set; }

    // sin(2π n / 120) in Q1.14, a turn and a quarter: the cosine stands a quarter of a turn farther on.
    private static ReadOnlySpan<short> Circle =>
    [
        0, 857, 1713, 2563, 3406, 4240, 5063, 5872, 6664, 7438, 8192, 8923, 9630, 10311, 10963,
        11585, 12176, 12733, 13255, 13741, 14189, 14598, 14968, 15296, 15582, 15826, 16026, 16182, 16294, 16362,
        16384, 16362, 16294, 16182, 16026, 15826, 15582, 15296, 14968, 14598, 14189, 13741, 13255, 12733, 12176,
        11585, 10963, 10311, 9630, 8923, 8192, 7438, 6664, 5872, 5063, 4240, 3406, 2563, 1713, 857,
        0, -857, -1713, -2563, -3406, -4240, -5063, -5872, -6664, -7438, -8192, -8923, -9630, -10311, -10963,
        -11585, -12176, -12733, -13255, -13741, -14189, -14598, -14968, -15296, -15582, -15826, -16026, -16182, -16294, -16362,
        -16384, -16362, -16294, -16182, -16026, -15826, -15582, -15296, -14968, -14598, -14189, -13741, -13255, -12733, -12176,
        -11585, -10963, -10311, -9630, -8923, -8192, -7438, -6664, -5872, -5063, -4240, -3406, -2563, -1713, -857,
        0, 857, 1713, 2563, 3406, 4240, 5063, 5872, 6664, 7438, 8192, 8923, 9630, 10311, 10963,
        11585, 12176, 12733, 13255, 13741, 14189, 14598, 14968, 15296, 15582, 15826, 16026, 16182, 16294, 16362,
    ];

    /// <summary>Looks for the rate.</summary>
    /// <param name="series">A full series.</param>
    public static BreathSpectrum Of(in BreathSeries series)
    {
        Word64 shaped = default;
        Shape(series, ref shaped);
        Powers powers = default;
        Add(FoldOdd(shaped), LowestRate + 1, 2, ref powers);
        Folded even = FoldEven(shaped);
        Add(FoldAgain(even, 1), LowestRate, 4, ref powers);
        Add(FoldAgain(even, -1), LowestRate + 2, 4, ref powers);
        long largest = 0;
        for (int k = 0; k < Rates; k++)
        {
            largest = powers[k] > largest ? powers[k] : largest;
        }

        int down = Wide.Bits((ulong)largest) - PowerBits;
        down = down < 0 ? 0 : down;
        int top = -1;
        long sum = 0;
        for (int k = 0; k < Rates; k++)
        {
            powers[k] = Wide.Floor(powers[k], down);
            sum += powers[k];
            bool isTop = k > 0 && k < Rates - 1 && (top < 0 || powers[k] > powers[top]);
            top = isTop ? k : top;
        }

        BreathSpectrum found = default;
        if (top < 0 || powers[top] < powers[top - 1] || powers[top] < powers[top + 1] || powers[top] == 0)
        {
            return found;
        }

        long near = 0;
        for (int k = top - Reach; k <= top + Reach; k++)
        {
            near += k < 0 || k >= Rates ? 0 : powers[k];
        }

        int offset256 = Parabola.Vertex256((int)powers[top - 1], (int)powers[top], (int)powers[top + 1]);
        found.RateMilli = ((top + LowestRate) * 1000) + Shift.Round(offset256 * 1000, 8);
        int more = Wide.Bits((ulong)sum) - 31;
        more = more < 0 ? 0 : more;
        found.Clarity = LongDivision.Rounded((ulong)Wide.Floor(near, more) * 255, (uint)Wide.Floor(sum, more));
        return found;
    }

    private static void Shape(in BreathSeries series, ref Word64 shaped)
    {
        int sum = 0;
        int tilt = 0;
        for (int n = 0; n < BreathSeries.Length; n++)
        {
            sum += series[n];
            tilt += ((2 * n) - 63) * series[n];
        }

        // The line: mean sum/64, slope 2 tilt / Σ(2n − 63)² = tilt / 43,680 per half step; Q.12.
        int rise = LongDivision.Rounded((ulong)(uint)Sat.Abs32(tilt) << 12, 87_360);
        rise = tilt < 0 ? -rise : rise;
        for (int n = 0; n < BreathSeries.Length; n++)
        {
            int line = Shift.Round(sum, 2) + Shift.Round(rise * ((2 * n) - 63), 8);
            shaped[n] = Shift.Round(((series[n] * 16) - line) * (n * (63 - n)), 4);
        }
    }

    // Values whose cosines are the same but for the sign are added first; sums of whole numbers, so the result is the same to the bit. Half a turn
    // of 1 per minute is 60 values: n and 60 − n go together, for even rates n and 30 − n as well.
    private static Folded FoldOdd(in Word64 shaped) => Fold(shaped, -1);

    private static Folded FoldEven(in Word64 shaped) => Fold(shaped, 1);

    private static Folded Fold(in Word64 shaped, int half)
    {
        Folded folded = default;
        folded.Last = Turn / 4;
        for (int n = 0; n <= Turn / 4; n++)
        {
            int here = n < BreathSeries.Length - (Turn / 2) ? shaped[n] + (half * shaped[n + (Turn / 2)]) : shaped[n];
            int there = n == 0 || n == Turn / 4 ? 0 : half * shaped[(Turn / 2) - n];
            folded.Even[n] = here + there;
            folded.Odd[n] = here - there;
        }

        return folded;
    }

    // For every fourth rate.
    private static Folded FoldAgain(in Folded once, int quarter)
    {
        Folded folded = default;
        folded.Last = Turn / 8;
        for (int n = 0; n < Turn / 8; n++)
        {
            folded.Even[n] = once.Even[n] + (quarter * once.Even[(Turn / 4) - n]);
            folded.Odd[n] = once.Odd[n] - (quarter * once.Odd[(Turn / 4) - n]);
        }

        folded.Even[Turn / 8] = once.Even[Turn / 8];
        folded.Odd[Turn / 8] = once.Odd[Turn / 8];
        return folded;
    }

    // Rates r and 60 − r have the same cosines and sines at even values, and with one sign changed at odd ones: their sums are made once.
    private static void Add(in Folded folded, int first, int step, ref Powers powers)
    {
        for (int rate = first; rate <= HalfTurnRate / 2; rate += step)
        {
            Sums sums = SumsOf(folded, rate);
            powers[rate - LowestRate] = Power(sums.EvenReal + sums.OddReal, sums.EvenImaginary + sums.OddImaginary);
            if (rate >= HalfTurnRate - HighestRate)
            {
                powers[HalfTurnRate - rate - LowestRate] = Power(sums.EvenReal - sums.OddReal, sums.OddImaginary - sums.EvenImaginary);
            }
        }
    }

    private static Sums SumsOf(in Folded folded, int rate)
    {
        if (Avx2.IsSupported)
        {
            return SumsInLanes(folded, rate);
        }

        Sums sums = default;
        ReadOnlySpan<short> circle = Circle;
        int phase = 0;
        for (int n = 0; n <= folded.Last; n += 2)
        {
            sums.EvenReal += (long)folded.Even[n] * circle[phase + (Turn / 4)];
            sums.EvenImaginary += (long)folded.Odd[n] * circle[phase];
            phase += 2 * rate;
            phase = phase >= Turn ? phase - Turn : phase;
        }

        phase = rate;
        for (int n = 1; n <= folded.Last; n += 2)
        {
            sums.OddReal += (long)folded.Even[n] * circle[phase + (Turn / 4)];
            sums.OddImaginary += (long)folded.Odd[n] * circle[phase];
            phase += 2 * rate;
            phase = phase >= Turn ? phase - Turn : phase;
        }

        return sums;
    }

    private static long Power(long real, long imaginary)
    {
        real = Wide.Floor(real, 16);
        imaginary = Wide.Floor(imaginary, 16);
        return (real * real) + (imaginary * imaginary);
    }

    // Of values with even and with odd numbers.
    private struct Sums
    {
        public long EvenReal;
        public long OddReal;
        public long EvenImaginary;
        public long OddImaginary;
    }

    private struct Folded
    {
        public Folds Even;
        public Folds Odd;
        public int Last;
    }

    // One more than is used, for lanes of four.
    [InlineArray((Turn / 4) + 2)]
    private struct Folds
    {
        private int _first;
    }

    [InlineArray(Rates)]
    private struct Powers
    {
        private long _first;
    }
}
