// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The front end's digital low-pass: second-order Butterworth by the bilinear transform, its corner prewarped.</summary>
/// <remarks>With K = tan(π × corner / rate): b = K²/(1 + √2 K + K²)·(1, 2, 1), a₁ = 2(K² − 1)/(…), a₂ = (1 − √2 K + K²)/(…) (textbook).</remarks>
internal struct LowPass
{
    private const double Nothing = 1e-30;

    // The corner can come no closer to half the rate than this, in parts of the rate.
    private const double HighestShare = 0.49;

    private readonly double _b0;
    private readonly double _a1;
    private readonly double _a2;
    private double _x1;
    private double _x2;
    private double _y1;
    private double _y2;

    /// <summary>Creates the filter.</summary>
    /// <param name="cornerHz">Corner (−3 dB), above 0 [Hz].</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    public LowPass(double cornerHz, double rateHz)
    {
        double k = Warped(cornerHz, rateHz);
        double root = Math.Sqrt(2.0) * k;
        double divisor = 1 + root + (k * k);
        _b0 = k * k / divisor;
        _a1 = 2 * ((k * k) - 1) / divisor;
        _a2 = (1 - root + (k * k)) / divisor;
    }

    /// <summary>Group delay of the filter at 0 Hz [s]: 1 / (√2 K) samples; close to √2/(2π × corner) when the rate is high.</summary>
    /// <remarks>
    /// The analog filter 1/(s² + √2 s + 1) delays by √2; s = (1 − z⁻¹)/(K (1 + z⁻¹)) turns an angle ω of a sample into tan(ω/2)/K, at 0 with the
    /// slope 1/(2K).
    /// </remarks>
    /// <param name="cornerHz">Corner (−3 dB), above 0 [Hz].</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    public static double DelaySeconds(double cornerHz, double rateHz) => 1 / (Math.Sqrt(2.0) * Warped(cornerHz, rateHz) * rateHz);

    /// <summary>Begins as if the input had been its first sample for long.</summary>
    public void Settle(double first)
    {
        _x1 = first;
        _x2 = first;
        _y1 = first;
        _y2 = first;
    }

    /// <summary>Filters samples in place.</summary>
    public void Run(Span<double> buffer)
    {
        double x1 = _x1;
        double x2 = _x2;
        double y1 = _y1;
        double y2 = _y2;
        double b0 = _b0;
        double a1 = _a1;
        double a2 = _a2;
        for (int i = 0; i < buffer.Length; i++)
        {
            double x = buffer[i];
            double y = ((b0 * (x + x1 + (x1 + x2))) - (a2 * y2)) - (a1 * y1);
            if (Math.Abs(y) < Nothing)
            {
                y = 0;
            }

            x2 = x1;
            x1 = x;
            y2 = y1;
            y1 = y;
            buffer[i] = y;
        }

        _x1 = x1;
        _x2 = x2;
        _y1 = y1;
        _y2 = y2;
    }

    // K: the analog frequency that the bilinear transform turns into the corner.
    private static double Warped(double cornerHz, double rateHz)
    {
        PortableMath.SinCosTurns(0.5 * Math.Min(HighestShare, cornerHz / rateHz), out double sin, out double cos);
        return sin / cos;
    }
}
