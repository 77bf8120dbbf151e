// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>Muscle noise of rms 1: white draws by sample through a fixed filter with the spectrum of the surface EMG.</summary>
/// <remarks>
/// <para>Power spectrum f² / ((f² + 60²)(f² + 120²)²), f in Hz (Shwedyk, Balasubramanian and Scott, IEEE Trans Biomed Eng 24:417, 1977; corners
/// as usual in simulations; from memory), up to half the sampling rate. The root of it, an odd function of f, is the response of an
/// antisymmetric filter of even length, 16 ms to either side: h[k] is its sine series. The power is that of the taps, 2 Σ h², and is scaled
/// to 1; the spectrum is the square of their sum. The sample depends on its index alone.</para>
/// </remarks>
internal sealed class MuscleFilter
{
    private const double LowHz = 60;
    private const double HighHz = 120;
    private const double ReachSeconds = 0.016;
    private const int Stretch = 256;

    // Sixteen at a time: what a tap costs besides is shared.
    private const int Together = 16;
    private const int Lanes = 4;
    private const int Intervals = 512;
    private readonly double[] _taps;

    /// <summary>Creates the filter.</summary>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    public MuscleFilter(double rateHz)
    {
        RateHz = rateHz;
        _taps = new double[(int)Math.Ceiling(ReachSeconds * rateHz)];
        double width = 0.5 * rateHz / Intervals;
        double power = 0;
        for (int k = 0; k < _taps.Length; k++)
        {
            // Simpson's rule; the amplitude is 0 at 0 Hz.
            double sum = 0;
            for (int i = 1; i <= Intervals; i++)
            {
                double weight = i == Intervals ? 1 : (i & 1) == 1 ? 4 : 2;
                PortableMath.SinCosTurns(i * width * (k + 0.5) / rateHz, out double sin, out _);
                sum += weight * Amplitude(i * width) * sin;
            }

            _taps[k] = sum;
            power += 2 * sum * sum;
        }

        double scale = 1 / Math.Sqrt(power);
        for (int k = 0; k < _taps.Length; k++)
        {
            _taps[k] *= scale;
        }
    }

    /// <summary>Sampling rate [Hz].</summary>
    public double RateHz { get; }

    /// <summary>Draws that a stretch of so many samples needs.</summary>
    public int DrawsFor(int samples) => samples + (2 * _taps.Length) - 1;

    /// <summary>Longest stretch made at once [samples].</summary>
    public static int LongestStretch => Stretch;

    /// <summary>Makes samples: overwrites the target.</summary>
    /// <param name="random">The white draws; draw n stands at sample n.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="target">Receives the samples; at most <see cref="LongestStretch"/>.</param>
    /// <param name="draws">Working space, as long as <see cref="DrawsFor"/> says for the longest stretch.</param>
    public void Make(in KeyedRandom random, long firstIndex, Span<double> target, double[] draws) => Run<Making>(random, firstIndex, target, draws, 1);

    /// <summary>Adds samples, as <see cref="Make"/> makes them, times a size.</summary>
    /// <param name="random">The white draws; draw n stands at sample n.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="target">Receives value + size × sample; at most <see cref="LongestStretch"/>.</param>
    /// <param name="draws">Working space, as long as <see cref="DrawsFor"/> says for the longest stretch.</param>
    /// <param name="size">Root mean square of what is added.</param>
    public void Add(in KeyedRandom random, long firstIndex, Span<double> target, double[] draws, double size) =>
        Run<Adding>(random, firstIndex, target, draws, size);

    private void Run<TWay>(in KeyedRandom random, long firstIndex, Span<double> target, double[] draws, double size)
        where TWay : struct
    {
        int reach = _taps.Length;
        Span<double> white = draws.AsSpan(0, DrawsFor(Stretch))[..DrawsFor(target.Length)];
        random.FillNormals(white, firstIndex - reach + 1, 1);

        // Sample i lies between draws i + reach − 1 and i + reach; the same sums in the same order in lanes and alone.
        ref double w = ref MemoryMarshal.GetReference(white);
        ref double taps = ref MemoryMarshal.GetArrayDataReference(_taps);
        ref double t = ref MemoryMarshal.GetReference(target);
        var sizes = Vector256.Create(size);
        int i = 0;
        for (; i + Together <= target.Length; i += Together)
        {
            Vector256<double> sum0 = Vector256<double>.Zero;
            Vector256<double> sum1 = Vector256<double>.Zero;
            Vector256<double> sum2 = Vector256<double>.Zero;
            Vector256<double> sum3 = Vector256<double>.Zero;
            ref double before = ref Unsafe.Add(ref w, i + reach - 1);
            ref double after = ref Unsafe.Add(ref w, i + reach);
            for (int k = 0; k < reach; k++)
            {
                var tap = Vector256.Create(Unsafe.Add(ref taps, k));
                sum0 += tap * (Vector256.LoadUnsafe(ref before) - Vector256.LoadUnsafe(ref after));
                sum1 += tap * (Vector256.LoadUnsafe(ref before, 4) - Vector256.LoadUnsafe(ref after, 4));
                sum2 += tap * (Vector256.LoadUnsafe(ref before, 8) - Vector256.LoadUnsafe(ref after, 8));
                sum3 += tap * (Vector256.LoadUnsafe(ref before, 12) - Vector256.LoadUnsafe(ref after, 12));
                before = ref Unsafe.Add(ref before, -1);
                after = ref Unsafe.Add(ref after, 1);
            }

            Put<TWay>(sum0, sizes, ref Unsafe.Add(ref t, i));
            Put<TWay>(sum1, sizes, ref Unsafe.Add(ref t, i + 4));
            Put<TWay>(sum2, sizes, ref Unsafe.Add(ref t, i + 8));
            Put<TWay>(sum3, sizes, ref Unsafe.Add(ref t, i + 12));
        }

        for (; i < target.Length; i += Lanes)
        {
            // Lanes past the last sample are made of what stands behind the draws, which are at least as many as for the next whole group, and left out.
            Vector256<double> sum = Vector256<double>.Zero;
            for (int k = 0; k < reach; k++)
            {
                var tap = Vector256.Create(Unsafe.Add(ref taps, k));
                sum += tap * (Vector256.LoadUnsafe(ref w, (nuint)(i + reach - 1 - k)) - Vector256.LoadUnsafe(ref w, (nuint)(i + reach + k)));
            }

            if (i + Lanes <= target.Length)
            {
                Put<TWay>(sum, sizes, ref Unsafe.Add(ref t, i));
                continue;
            }

            for (int k = 0; i + k < target.Length; k++)
            {
                target[i + k] = typeof(TWay) == typeof(Adding) ? target[i + k] + (size * sum.GetElement(k)) : sum.GetElement(k);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put<TWay>(Vector256<double> sum, Vector256<double> size, ref double target)
        where TWay : struct
    {
        Vector256<double> value = typeof(TWay) == typeof(Adding) ? Vector256.LoadUnsafe(ref target) + (size * sum) : sum;
        value.StoreUnsafe(ref target);
    }

    /// <summary>Share of the power between two frequencies, from the taps; both below half the rate.</summary>
    /// <param name="lowHz">Lower end [Hz].</param>
    /// <param name="highHz">Upper end [Hz].</param>
    public double Share(double lowHz, double highHz) =>
        Quadrature.Integrate(Density, lowHz, Math.Min(highHz, 0.5 * RateHz));

    /// <summary>Power density at a frequency [1/Hz], one-sided: (2/rate) |2 Σ h sin(2π f (k + ½)/rate)|².</summary>
    /// <param name="hertz">Frequency [Hz].</param>
    public double Density(double hertz)
    {
        double sum = 0;
        for (int k = 0; k < _taps.Length; k++)
        {
            PortableMath.SinCosTurns(hertz * (k + 0.5) / RateHz, out double sin, out _);
            sum += _taps[k] * sin;
        }

        return 2 / RateHz * (4 * sum * sum);
    }

    private static double Amplitude(double hertz) =>
        hertz / (Math.Sqrt((hertz * hertz) + (LowHz * LowHz)) * ((hertz * hertz) + (HighHz * HighHz)));

    private readonly struct Making;

    private readonly struct Adding;
}
