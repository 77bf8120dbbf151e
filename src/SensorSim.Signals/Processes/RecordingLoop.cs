// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Recorded noise as an endless loop of mean 0 and rms 1, to be read at any time. Immutable, and safe for several threads.</summary>
/// <remarks>
/// <para>Seam: the last second, at most a quarter of the recording, is laid over the first; cosine and sine of a quarter turn as weights keep
/// the power where both are uncorrelated (equal-power crossfade, textbook). For a channel that is slower than the recording a low-pass comes
/// first: windowed sinc, −6 dB at 0.45 of the channel's rate, so that nothing folds.</para>
/// <para>Between values: cubic convolution (Keys, IEEE Trans ASSP 29:1153, 1981, a = −½), continuous in the first derivative. The mean square of
/// what it draws, over all times, is Σ r[k] c[k] with r the correlation of the loop's values and c that of the kernel;
/// the values are divided by its root. No draw is measured.</para>
/// </remarks>
public sealed class RecordingLoop
{
    private const double SeamSeconds = 1;
    private const double CornerShare = 0.45;
    private const int Lobes = 8;
    private const double TwoTo52 = 4503599627370496.0;

    // Correlation of the kernel with itself at 0 to 3 values.
    private static readonly double[] s_kernel = [KernelCorrelation(0), KernelCorrelation(1), KernelCorrelation(2), KernelCorrelation(3)];

    private readonly double[] _values;
    private readonly Lazy<double[]> _spectrum;

    internal RecordingLoop(NoiseRecording recording, double channelRateHz)
    {
        ChannelRateHz = channelRateHz;
        RateHz = recording.RateHz;
        double[] loop = Joined(recording.Values, RateHz);
        if (channelRateHz < RateHz)
        {
            loop = LowPass(loop, CornerShare * channelRateHz / RateHz);
        }

        Normalise(loop);
        Length = loop.Length;

        // One value before and two after, so that the four neighbours of any place stand together.
        _values = [loop[^1], .. loop, loop[0], loop[1]];
        _spectrum = new Lazy<double[]>(() => PowerSpectrum.Of(loop));
    }

    /// <summary>Rate of the recording [Hz].</summary>
    public double RateHz { get; }

    /// <summary>Rate of the channel [Hz].</summary>
    public double ChannelRateHz { get; }

    /// <summary>Values in the loop.</summary>
    public int Length { get; }

    /// <summary>Adds the loop to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="startShare">Place in the loop at time 0, 0 to 1.</param>
    /// <param name="rms">Root mean square.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, double startShare, double rms)
    {
        double[] values = _values;
        double length = Length;
        double start = startShare * length;
        double rate = RateHz;
        double gridStart = grid.StartSeconds;
        double gridStep = grid.StepSeconds;

        // Where the present round of the loop begins. Places are at least as coarse as whole rounds, so every difference here is exact.
        double begin = start + ((gridStart + (firstIndex * gridStep)) * rate);
        double round = length * (Math.Floor(begin / length) - 1);
        while (begin - round >= length)
        {
            round += length;
        }

        // Where the whole stretch lies in this round, no place in it has to be looked at; the one that does not, once a round, goes sample by sample.
        double last = start + ((gridStart + ((firstIndex + buffer.Length - 1) * gridStep)) * rate);
        int i = last - round < length ? AddWithin(buffer, values, firstIndex, gridStart, gridStep, rate, start, round, rms) : 0;
        for (; i < buffer.Length; i++)
        {
            double place = start + ((gridStart + ((firstIndex + i) * gridStep)) * rate);
            while (place - round >= length)
            {
                round += length;
            }

            double within = place - round;
            int k = (int)within;
            double u = within - k;
            double a = values[k];
            double b = values[k + 1];
            double c = values[k + 2];
            double d = values[k + 3];
            double slope = c - a;
            double c2 = (2 * a) - (5 * b) + (4 * c) - d;
            double c3 = (3 * (b - c)) + d - a;
            buffer[i] += rms * (b + (0.5 * u * (slope + (u * (c2 + (u * c3))))));
        }
    }

    // Whole fours whose places all lie in one round: the same operations as one by one.
    private static int AddWithin(
        Span<double> buffer,
        double[] values,
        double firstIndex,
        double gridStart,
        double gridStep,
        double rate,
        double start,
        double round,
        double rms)
    {
        Vector256<double> index = Vector256.Create(firstIndex) + Vector256.Create(0.0, 1, 2, 3);
        var gridStarts = Vector256.Create(gridStart);
        var gridSteps = Vector256.Create(gridStep);
        var rates = Vector256.Create(rate);
        var starts = Vector256.Create(start);
        var rounds = Vector256.Create(round);
        var size = Vector256.Create(rms);
        ref double to = ref MemoryMarshal.GetReference(buffer);
        ref double first = ref MemoryMarshal.GetArrayDataReference(values);
        nuint whole = (nuint)(buffer.Length & -Vector256<double>.Count);
        for (nuint i = 0; i < whole; i += (nuint)Vector256<double>.Count)
        {
            Vector256<double> within = (starts + ((gridStarts + (index * gridSteps)) * rates)) - rounds;
            Vector256<double> floor = Vector256.Floor(within);
            Add(ref Unsafe.Add(ref to, i), ref first, floor, within - floor, size);
            index += Vector256.Create(4.0);
        }

        return (int)whole;
    }

    // All four places lie in the loop, one value before it and two behind it stand in the array: nothing to check.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(ref double target, ref double first, Vector256<double> floor, Vector256<double> u, Vector256<double> size)
    {
        // Whole numbers stand in the lower bits of what 2^52 is added to.
        Vector256<long> place = (floor + Vector256.Create(TwoTo52)).AsInt64() & Vector256.Create((long)uint.MaxValue);
        nuint k0 = (nuint)place.GetElement(0);
        if (floor == Vector256.Create(floor.ToScalar()) + Vector256.Create(0.0, 1, 2, 3))
        {
            // Neighbouring samples, neighbouring values: the usual case where channel and recording have one rate.
            Put(
                ref target,
                Vector256.LoadUnsafe(ref first, k0),
                Vector256.LoadUnsafe(ref first, k0 + 1),
                Vector256.LoadUnsafe(ref first, k0 + 2),
                Vector256.LoadUnsafe(ref first, k0 + 3),
                u,
                size);
            return;
        }

        nuint k1 = (nuint)place.GetElement(1);
        nuint k2 = (nuint)place.GetElement(2);
        nuint k3 = (nuint)place.GetElement(3);
        if (Avx.IsSupported)
        {
            // The four neighbours of a place stand together: halves of two places side by side, then equal neighbours.
            Vector256<double> lowEven = Vector256.Create(Vector128.LoadUnsafe(ref first, k0), Vector128.LoadUnsafe(ref first, k2));
            Vector256<double> lowOdd = Vector256.Create(Vector128.LoadUnsafe(ref first, k1), Vector128.LoadUnsafe(ref first, k3));
            Vector256<double> highEven = Vector256.Create(Vector128.LoadUnsafe(ref first, k0 + 2), Vector128.LoadUnsafe(ref first, k2 + 2));
            Vector256<double> highOdd = Vector256.Create(Vector128.LoadUnsafe(ref first, k1 + 2), Vector128.LoadUnsafe(ref first, k3 + 2));
            Put(
                ref target,
                Avx.UnpackLow(lowEven, lowOdd),
                Avx.UnpackHigh(lowEven, lowOdd),
                Avx.UnpackLow(highEven, highOdd),
                Avx.UnpackHigh(highEven, highOdd),
                u,
                size);
        }
        else
        {
            Put(
                ref target,
                Each(ref first, k0, k1, k2, k3),
                Each(ref first, k0 + 1, k1 + 1, k2 + 1, k3 + 1),
                Each(ref first, k0 + 2, k1 + 2, k2 + 2, k3 + 2),
                Each(ref first, k0 + 3, k1 + 3, k2 + 3, k3 + 3),
                u,
                size);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(
        ref double target,
        Vector256<double> a,
        Vector256<double> b,
        Vector256<double> c,
        Vector256<double> d,
        Vector256<double> u,
        Vector256<double> size)
    {
        Vector256<double> slope = c - a;
        Vector256<double> c2 = (2 * a) - (5 * b) + (4 * c) - d;
        Vector256<double> c3 = (3 * (b - c)) + d - a;
        Vector256<double> value = b + (0.5 * u * (slope + (u * (c2 + (u * c3)))));
        (Vector256.LoadUnsafe(ref target) + (size * value)).StoreUnsafe(ref target);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Each(ref double first, nuint k0, nuint k1, nuint k2, nuint k3) => Vector256.Create(
        Unsafe.Add(ref first, k0), Unsafe.Add(ref first, k1), Unsafe.Add(ref first, k2), Unsafe.Add(ref first, k3));

    /// <summary>Share of the power between two frequencies, from the discrete Fourier transform of the loop's values and the kernel's.</summary>
    /// <param name="lowHz">Lower end [Hz].</param>
    /// <param name="highHz">Upper end [Hz]; what lies above half the recording's rate is not counted.</param>
    public double Share(double lowHz, double highHz)
    {
        double[] spectrum = _spectrum.Value;
        int half = spectrum.Length - 1;
        double perBin = RateHz / (2 * half);
        double band = 0;
        for (int k = (int)Math.Ceiling(lowHz / perBin); k <= half && k * perBin < highHz; k++)
        {
            double response = Response(0.5 * k / half);
            band += (k == 0 || k == half ? 1 : 2) * spectrum[k] * response * response;
        }

        // Parseval's theorem; what is drawn has a mean square of 1.
        return band / (2.0 * half * Length);
    }

    // Fourier transform of the kernel at a frequency in parts of the recording's rate, by Simpson's rule over its two pieces.
    private static double Response(double frequency)
    {
        const int Intervals = 16;
        double sum = 0;
        for (int i = 0; i <= 2 * Intervals; i++)
        {
            double t = (double)i / Intervals;
            double kernel = t <= 1 ? 1 + (t * t * ((1.5 * t) - 2.5)) : 2 + (t * (-4 + (t * (2.5 - (0.5 * t)))));
            double weight = i == 0 || i == 2 * Intervals ? 1 : i == Intervals ? 2 : (i & 1) == 1 ? 4 : 2;
            PortableMath.SinCosTurns(frequency * t, out _, out double cos);
            sum += weight * kernel * cos;
        }

        return 2 * sum / (3 * Intervals);
    }

    private static double[] Joined(double[] values, double rateHz)
    {
        double mean = 0;
        foreach (double v in values)
        {
            mean += v / values.Length;
        }

        int seam = (int)Math.Min(values.Length / 4, Math.Ceiling(SeamSeconds * rateHz));
        var loop = new double[values.Length - seam];
        for (int i = 0; i < loop.Length; i++)
        {
            loop[i] = values[i] - mean;
            if (i < seam)
            {
                PortableMath.SinCosTurns(0.25 * (i + 0.5) / seam, out double rising, out double falling);
                loop[i] = (rising * loop[i]) + (falling * (values[loop.Length + i] - mean));
            }
        }

        return loop;
    }

    // Circular, so that the seam stays none.
    private static double[] LowPass(double[] loop, double corner)
    {
        int reach = (int)Math.Min((loop.Length - 1) / 2, Math.Ceiling(Lobes / (2 * corner)));
        var taps = new double[reach + 1];
        double sum = 0;
        for (int k = 0; k <= reach; k++)
        {
            PortableMath.SinCosTurns(corner * k, out double sin, out _);
            PortableMath.SinCosTurns(0.5 * k / (reach + 1), out _, out double cos);
            taps[k] = (k == 0 ? 2 * corner : sin / (Math.PI * k)) * 0.5 * (1 + cos);
            sum += k == 0 ? taps[k] : 2 * taps[k];
        }

        var result = new double[loop.Length];
        for (int i = 0; i < loop.Length; i++)
        {
            double y = taps[0] * loop[i];
            for (int k = 1; k <= reach; k++)
            {
                int before = i - k < 0 ? i - k + loop.Length : i - k;
                int after = i + k >= loop.Length ? i + k - loop.Length : i + k;
                y += taps[k] * (loop[before] + loop[after]);
            }

            result[i] = y / sum;
        }

        return result;
    }

    private static void Normalise(double[] loop)
    {
        double mean = 0;
        foreach (double v in loop)
        {
            mean += v / loop.Length;
        }

        double largest = 0;
        for (int i = 0; i < loop.Length; i++)
        {
            loop[i] -= mean;
            largest = Math.Max(largest, Math.Abs(loop[i]));
        }

        // So that squares of tiny or huge values neither vanish nor overflow.
        for (int i = 0; i < loop.Length && largest > 0; i++)
        {
            loop[i] /= largest;
        }

        double power = 0;
        for (int k = 0; k < s_kernel.Length; k++)
        {
            double correlation = 0;
            for (int i = 0; i < loop.Length; i++)
            {
                int other = i + k >= loop.Length ? i + k - loop.Length : i + k;
                correlation += loop[i] * loop[other];
            }

            power += (k == 0 ? 1 : 2) * s_kernel[k] * correlation / loop.Length;
        }

        double scale = power > 0 ? 1 / Math.Sqrt(power) : 0;
        for (int i = 0; i < loop.Length; i++)
        {
            loop[i] *= scale;
        }
    }

    // ∫ over a stretch between two values of the sum of products of the four neighbours' cubics that lie so far apart.
    private static double KernelCorrelation(int distance)
    {
        double[][] cubics = [[0, -0.5, 1, -0.5], [1, 0, -2.5, 1.5], [0, 0.5, 2, -1.5], [0, 0, -0.5, 0.5]];
        double sum = 0;
        for (int j = 0; j + distance < 4; j++)
        {
            for (int m = 0; m < 4; m++)
            {
                for (int n = 0; n < 4; n++)
                {
                    sum += cubics[j][m] * cubics[j + distance][n] / (m + n + 1);
                }
            }
        }

        return sum;
    }
}
