// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>1/f noise of root mean square 1: white noise through eight parallel one-pole low-passes.</summary>
/// <remarks>
/// <para>Corners f(k) stand evenly on a logarithmic scale from 0.05 Hz to half the sampling rate; with weights √f(k) their sum falls as
/// 1/√f, since ∫ √a/(s + a) d(ln a) = π/√s. The power is 1/f within 1.3 dB from 0.1 Hz to a quarter of the rate at any rate from 50 to 2000 Hz,
/// and flat below 0.05 Hz.</para>
/// <para>With poles p and weights c the variance is Σ Σ c(j)c(k)/(1 − p(j)p(k)), in closed form; the first states are drawn from the same
/// covariance, so the noise is stationary from its first sample.</para>
/// </remarks>
internal sealed class FlickerNoise
{
    /// <summary>Lowest corner [Hz].</summary>
    public const double LowestHz = 0.05;

    private const int Poles = 8;
    private const int Lanes = 4;
    private const int Piece = 256;

    private readonly KeyedRandom _random;
    private readonly Vector256<double> _keepSlow;
    private readonly Vector256<double> _keepFast;
    private readonly Vector256<double> _weightSlow;
    private readonly Vector256<double> _weightFast;

    // From one pair of samples to the next, and what the first draw of a pair has become by its second sample.
    private readonly Vector256<double> _keepTwoSlow;
    private readonly Vector256<double> _keepTwoFast;
    private readonly Vector256<double> _weightTwoSlow;
    private readonly Vector256<double> _weightTwoFast;
    private double[] _white = new double[Piece];
    private Vector256<double> _slow;
    private Vector256<double> _fast;
    private double _firstOfPair;

    /// <summary>Creates the noise.</summary>
    /// <param name="random">Draw i is the white noise of sample i.</param>
    /// <param name="start">Draws 0 to 7 give the state before sample 0.</param>
    /// <param name="grid">Sampling instants.</param>
    public FlickerNoise(KeyedRandom random, KeyedRandom start, SampleGrid grid)
    {
        _random = random;
        Span<double> keep = stackalloc double[Poles];
        Span<double> weight = stackalloc double[Poles];
        Design(grid.StepSeconds, keep, weight);
        Span<double> covariance = stackalloc double[Poles * Poles];
        double variance = 0;
        for (int j = 0; j < Poles; j++)
        {
            for (int k = 0; k < Poles; k++)
            {
                covariance[(j * Poles) + k] = weight[j] * weight[k] / (1 - (keep[j] * keep[k]));
                variance += covariance[(j * Poles) + k];
            }
        }

        double scale = 1 / Math.Sqrt(variance);
        Span<double> state = stackalloc double[Poles];
        DrawStart(start, covariance, state);
        for (int k = 0; k < Poles; k++)
        {
            weight[k] *= scale;
            state[k] *= scale;
        }

        _keepSlow = Vector256.Create<double>(keep[..4]);
        _keepFast = Vector256.Create<double>(keep[4..]);
        _weightSlow = Vector256.Create<double>(weight[..4]);
        _weightFast = Vector256.Create<double>(weight[4..]);
        _keepTwoSlow = _keepSlow * _keepSlow;
        _keepTwoFast = _keepFast * _keepFast;
        _weightTwoSlow = _keepSlow * _weightSlow;
        _weightTwoFast = _keepFast * _weightFast;
        _slow = Vector256.Create<double>(state[..4]);
        _fast = Vector256.Create<double>(state[4..]);
    }

    /// <summary>Adds the noise to samples.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="rms">Root mean square; 0 keeps the noise going.</param>
    public void Add(Span<double> buffer, long firstIndex, double rms)
    {
        for (int done = 0; done < buffer.Length; done += Piece)
        {
            Span<double> part = buffer[done..Math.Min(buffer.Length, done + Piece)];
            Span<double> white = _white.AsSpan(0, part.Length);
            _random.FillNormals(white, firstIndex + done, 1);
            AddPart(part, white, firstIndex + done, rms);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public FlickerNoise Copy()
    {
        var copy = (FlickerNoise)MemberwiseClone();
        copy._white = new double[Piece];
        return copy;
    }

    // A one-pole low-pass that holds its input for a sample: its sum over all corners stays straight up to half the rate.
    private static void Design(double stepSeconds, Span<double> keep, Span<double> weight)
    {
        double logRange = PortableMath.Log(0.5 / (stepSeconds * LowestHz));
        for (int k = 0; k < Poles; k++)
        {
            double a = 2 * Math.PI * LowestHz * PortableMath.Exp(logRange * k / (Poles - 1));
            keep[k] = PortableMath.Exp(-a * stepSeconds);
            weight[k] = (1 - keep[k]) / Math.Sqrt(a * stepSeconds);
        }
    }

    // Cholesky factor of the covariance, row by row, times independent draws.
    private static void DrawStart(KeyedRandom random, Span<double> covariance, Span<double> state)
    {
        Span<double> draws = stackalloc double[Poles];
        random.AddNormals(draws, 0, 1);
        for (int j = 0; j < Poles; j++)
        {
            Span<double> row = covariance.Slice(j * Poles, Poles);
            for (int k = 0; k <= j; k++)
            {
                double sum = row[k];
                for (int i = 0; i < k; i++)
                {
                    sum -= row[i] * covariance[(k * Poles) + i];
                }

                row[k] = k < j ? sum / covariance[(k * Poles) + k] : Math.Sqrt(Math.Max(0, sum));
                state[j] += row[k] * draws[k];
            }
        }
    }

    // The state goes on from a sample of even index to the next one, over a pair of samples, so that not each waits for the one before it.
    // Where a cut parts a pair, the draw of its first sample is kept for the second one.
    private void AddPart(Span<double> part, ReadOnlySpan<double> white, long firstIndex, double rms)
    {
        int i = 0;
        if ((firstIndex & 1) != 0)
        {
            GoOn(_firstOfPair, white[0]);
            part[0] += rms * Sum(_slow, _fast);
            i = 1;
        }

        i += AddFours(part[i..], white[i..], rms);
        for (; i + 1 < part.Length; i += 2)
        {
            part[i] += rms * First(white[i]);
            GoOn(white[i], white[i + 1]);
            part[i + 1] += rms * Sum(_slow, _fast);
        }

        if (i < part.Length)
        {
            _firstOfPair = white[i];
            part[i] += rms * First(white[i]);
        }
    }

    private double First(double draw) => Sum((_keepSlow * _slow) + (_weightSlow * draw), (_keepFast * _fast) + (_weightFast * draw));

    private void GoOn(double first, double second)
    {
        _slow = (_keepTwoSlow * _slow) + ((_weightTwoSlow * first) + (_weightSlow * second));
        _fast = (_keepTwoFast * _fast) + ((_weightTwoFast * first) + (_weightFast * second));
    }

    private static double Sum(Vector256<double> slow, Vector256<double> fast)
    {
        Vector256<double> lanes = slow + fast;
        Vector128<double> pairs = lanes.GetLower() + lanes.GetUpper();
        return pairs.GetElement(0) + pairs.GetElement(1);
    }

    // Two pairs at once: the same sums in the same order as one by one, four of them side by side. Returns how many samples are done.
    private int AddFours(Span<double> part, ReadOnlySpan<double> white, double rms)
    {
        if (!Avx.IsSupported)
        {
            return 0;
        }

        Vector256<double> slow = _slow;
        Vector256<double> fast = _fast;
        Vector256<double> keepSlow = _keepSlow;
        Vector256<double> keepFast = _keepFast;
        Vector256<double> keepTwoSlow = _keepTwoSlow;
        Vector256<double> keepTwoFast = _keepTwoFast;
        Vector256<double> weightSlow = _weightSlow;
        Vector256<double> weightFast = _weightFast;
        Vector256<double> weightTwoSlow = _weightTwoSlow;
        Vector256<double> weightTwoFast = _weightTwoFast;
        var size = Vector256.Create(rms);
        ref double w = ref MemoryMarshal.GetReference(white[..part.Length]);
        ref double p = ref MemoryMarshal.GetReference(part);
        int whole = part.Length & -Lanes;
        for (nuint i = 0; i < (nuint)(uint)whole; i += Lanes)
        {
            var draw = Vector256.Create(Unsafe.Add(ref w, i));
            var next = Vector256.Create(Unsafe.Add(ref w, i + 1));
            Vector256<double> a = ((keepSlow * slow) + (weightSlow * draw)) + ((keepFast * fast) + (weightFast * draw));
            slow = (keepTwoSlow * slow) + ((weightTwoSlow * draw) + (weightSlow * next));
            fast = (keepTwoFast * fast) + ((weightTwoFast * draw) + (weightFast * next));
            Vector256<double> b = slow + fast;
            draw = Vector256.Create(Unsafe.Add(ref w, i + 2));
            next = Vector256.Create(Unsafe.Add(ref w, i + 3));
            Vector256<double> c = ((keepSlow * slow) + (weightSlow * draw)) + ((keepFast * fast) + (weightFast * draw));
            slow = (keepTwoSlow * slow) + ((weightTwoSlow * draw) + (weightSlow * next));
            fast = (keepTwoFast * fast) + ((weightTwoFast * draw) + (weightFast * next));
            Vector256<double> d = slow + fast;
            Vector256<double> even = Avx.Permute2x128(a, c, 0x20) + Avx.Permute2x128(a, c, 0x31);
            Vector256<double> odd = Avx.Permute2x128(b, d, 0x20) + Avx.Permute2x128(b, d, 0x31);
            Vector256<double> sum = Avx.UnpackLow(even, odd) + Avx.UnpackHigh(even, odd);
            (Vector256.LoadUnsafe(ref p, i) + (size * sum)).StoreUnsafe(ref p, i);
        }

        _slow = slow;
        _fast = fast;
        return whole;
    }
}
