// SPDX-License-Identifier: MIT
namespace SensorSim.Grading.Plain;

/// <summary>A second-order filter, Butterworth, by the bilinear transform (textbook).</summary>
internal struct Biquad
{
    private double _b0, _b1, _b2, _a1, _a2, _s1, _s2;

    /// <summary>A low-pass.</summary>
    public static Biquad LowPass(double cornerHz, double rateHz)
    {
        double k = Math.Tan(Math.PI * cornerHz / rateHz);
        double norm = 1 / (1 + (Math.Sqrt(2) * k) + (k * k));
        return new Biquad { _b0 = k * k * norm, _b1 = 2 * k * k * norm, _b2 = k * k * norm, _a1 = 2 * ((k * k) - 1) * norm, _a2 = (1 - (Math.Sqrt(2) * k) + (k * k)) * norm };
    }

    /// <summary>A high-pass.</summary>
    public static Biquad HighPass(double cornerHz, double rateHz)
    {
        double k = Math.Tan(Math.PI * cornerHz / rateHz);
        double norm = 1 / (1 + (Math.Sqrt(2) * k) + (k * k));
        return new Biquad { _b0 = norm, _b1 = -2 * norm, _b2 = norm, _a1 = 2 * ((k * k) - 1) * norm, _a2 = (1 - (Math.Sqrt(2) * k) + (k * k)) * norm };
    }

    /// <summary>Takes a sample, gives a sample.</summary>
    public double Next(double x)
    {
        double y = (_b0 * x) + _s1;
        _s1 = (_b1 * x) - (_a1 * y) + _s2;
        _s2 = (_b2 * x) - (_a2 * y);
        return y;
    }
}
