// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The front end's digital low-pass: second-order Butterworth by the bilinear transform, its corner prewarped.</summary>
/// <remarks>
/// With K = tan(π × corner / rate): b = K²/(1 + √2 K + K²)·(1, 2, 1), a₁ = 2(K² − 1)/(…), a₂ = (1 − √2 K + K²)/(…) (textbook). Four
/// neighbours are made at once: see <see cref="LookAheadFilter"/>.
/// </remarks>
internal sealed class LowPass
{
    // The corner can come no closer to half the rate than this, in parts of the rate.
    private const double HighestShare = 0.49;

    private readonly LookAheadFilter _filter;

    /// <summary>Creates the filter.</summary>
    /// <param name="cornerHz">Corner (−3 dB), above 0 [Hz].</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    public LowPass(double cornerHz, double rateHz)
    {
        double k = Warped(cornerHz, rateHz);
        double root = Math.Sqrt(2.0) * k;
        double divisor = 1 + root + (k * k);
        double b0 = k * k / divisor;
        double a1 = 2 * ((k * k) - 1) / divisor;
        double a2 = (1 - root + (k * k)) / divisor;

        // (1 + a₁z⁻¹ + a₂z⁻²)(1 − a₁z⁻¹ + a₂z⁻²) = 1 + c₁z⁻² + c₂z⁻⁴; once more, and only z⁻⁴ and z⁻⁸ are left.
        double c1 = (2 * a2) - (a1 * a1);
        double c2 = a2 * a2;
        double[] once = Times([b0, 2 * b0, b0], [1, -a1, a2]);
        _filter = new LookAheadFilter(Times(once, [1, 0, -c1, 0, c2]), (c1 * c1) - (2 * c2), -c2 * c2);
    }

    private LowPass(LowPass other) => _filter = other._filter.Copy();

    /// <summary>Group delay of the filter at 0 Hz [s]: 1 / (√2 K) samples; close to √2/(2π × corner) when the rate is high.</summary>
    /// <remarks>
    /// The analog filter 1/(s² + √2 s + 1) delays by √2; s = (1 − z⁻¹)/(K (1 + z⁻¹)) turns an angle ω of a sample into tan(ω/2)/K, at 0 with the
    /// slope 1/(2K).
    /// </remarks>
    /// <param name="cornerHz">Corner (−3 dB), above 0 [Hz].</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    public static double DelaySeconds(double cornerHz, double rateHz) => 1 / (Math.Sqrt(2.0) * Warped(cornerHz, rateHz) * rateHz);

    /// <summary>Begins as if the input had been its first sample for long.</summary>
    public void Settle(double first) => _filter.Settle(first, first, 1);

    /// <summary>Filters samples in place.</summary>
    public void Run(Span<double> buffer)
    {
        for (int done = 0; done < buffer.Length; done += LookAheadFilter.Piece)
        {
            Span<double> part = buffer[done..Math.Min(buffer.Length, done + LookAheadFilter.Piece)];
            part.CopyTo(_filter.Inputs(part.Length));
            _filter.Run(part);
        }
    }

    /// <summary>Where somebody may put the samples of <see cref="RunInputs"/> himself.</summary>
    /// <param name="count">How many, at most <see cref="LookAheadFilter.Piece"/>.</param>
    public Span<double> Inputs(int count) => _filter.Inputs(count);

    /// <summary>Filters what stands in <see cref="Inputs"/>.</summary>
    /// <param name="target">Receives as many outputs.</param>
    public void RunInputs(Span<double> target) => _filter.Run(target);

    /// <summary>An independent copy with the same state.</summary>
    public LowPass Copy() => new(this);

    // Product of two polynomials.
    private static double[] Times(double[] a, double[] b)
    {
        var product = new double[a.Length + b.Length - 1];
        for (int i = 0; i < a.Length; i++)
        {
            for (int k = 0; k < b.Length; k++)
            {
                product[i + k] += a[i] * b[k];
            }
        }

        return product;
    }

    // K: the analog frequency that the bilinear transform turns into the corner.
    private static double Warped(double cornerHz, double rateHz)
    {
        PortableMath.SinCosTurns(0.5 * Math.Min(HighestShare, cornerHz / rateHz), out double sin, out double cos);
        return sin / cos;
    }
}
