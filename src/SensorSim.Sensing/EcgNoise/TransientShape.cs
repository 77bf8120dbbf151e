// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>The forms that transients of electrode motion have; x is time in widths, the largest magnitude is 1.</summary>
internal enum TransientShape
{
    /// <summary>There and back: x²(3 − x)e^(−x), from x = 0 on; its integral is 0.</summary>
    Biphasic,

    /// <summary>A fast rise and an exponential fall: (1 − e^(−x/0.3))³ e^(−x), from x = 0 on.</summary>
    Exponential,

    /// <summary>Three phases like Q, R and S: (1 − x²)e^(−x²/2), about x = 0; its integral is 0.</summary>
    ThreePhase,
}

/// <summary>Closed forms of <see cref="TransientShape"/>.</summary>
internal static class TransientShapes
{
    /// <summary>Rise of the exponential form, in parts of its fall.</summary>
    public const double Rise = 0.3;

    // At 3 − √3 and at 0.3 ln 11 the derivatives are 0 for the first time.
    private static readonly double s_biphasic = 1 / RawBiphasic(3 - Math.Sqrt(3.0));
    private static readonly double s_exponential = 1 / RawExponential(Rise * PortableMath.Log(1 + (3 / Rise)));

    /// <summary>Factor that brings the largest magnitude to 1.</summary>
    public static double Scale(TransientShape shape) => shape switch
    {
        TransientShape.Biphasic => s_biphasic,
        TransientShape.Exponential => s_exponential,
        _ => 1,
    };

    /// <summary>Widths in a duration; beyond it the transient stays below 2 % of its peak.</summary>
    public static double WidthsOfDuration(TransientShape shape) => shape switch
    {
        TransientShape.Biphasic => 11.044814193647964,
        TransientShape.Exponential => 4.917321898347626,
        _ => 2 * 3.571009932590088,
    };

    /// <summary>Where it begins.</summary>
    public static double Begin(TransientShape shape) => shape == TransientShape.ThreePhase ? -7.5 : 0;

    /// <summary>Where it is cut off: below 2e-8 of its peak.</summary>
    public static double End(TransientShape shape) => shape switch
    {
        TransientShape.Biphasic => 28,
        TransientShape.Exponential => 20,
        _ => 7.5,
    };

    /// <summary>Integral of its square: 9/8 scale² by ∫ xⁿ e^(−2x) dx = n!/2^(n+1); a sum of exponentials; ¾ √π.</summary>
    public static double Square(TransientShape shape) => shape switch
    {
        TransientShape.Biphasic => 1.125 * s_biphasic * s_biphasic,
        TransientShape.Exponential => s_exponential * s_exponential * Exponentials(2),
        _ => 0.75 * Math.Sqrt(Math.PI),
    };

    /// <summary>Integral of its fourth power, likewise; (1 − x²)⁴e^(−2x²) by the moments of a Gaussian of variance ¼: 153/256 √(π/2).</summary>
    public static double Fourth(TransientShape shape)
    {
        double s2 = Scale(shape) * Scale(shape);
        return shape switch
        {
            TransientShape.Biphasic => s2 * s2 * BiphasicFourth(),
            TransientShape.Exponential => s2 * s2 * Exponentials(4),
            _ => 153.0 / 256 * Math.Sqrt(0.5 * Math.PI),
        };
    }

    /// <summary>Square of the magnitude of its Fourier transform ∫ h(x) e^(−jrx) dx.</summary>
    /// <param name="shape">The form.</param>
    /// <param name="r">2π × frequency × width.</param>
    public static double TransformPower(TransientShape shape, double r)
    {
        double r2 = r * r;
        switch (shape)
        {
            case TransientShape.Biphasic:
                double one = 1 + r2;
                return 36 * s_biphasic * s_biphasic * r2 / (one * one * (one * one));
            case TransientShape.Exponential:
                // Partial fractions of the four exponentials: 6/ρ³ over the product of (1 + i/ρ + jr), i = 0 to 3.
                double product = 1;
                for (int i = 0; i < 4; i++)
                {
                    double a = 1 + (i / Rise);
                    product *= (a * a) + r2;
                }

                double top = s_exponential * 6 / (Rise * Rise * Rise);
                return top * top / product;
            default:
                return 2 * Math.PI * r2 * r2 * PortableMath.Exp(-r2);
        }
    }

    /// <summary>The transient by its definition.</summary>
    /// <param name="shape">The form.</param>
    /// <param name="x">Time in widths.</param>
    public static double At(TransientShape shape, double x) => x < Begin(shape) || x >= End(shape) ? 0 : Scale(shape) * (shape switch
    {
        TransientShape.Biphasic => RawBiphasic(x),
        TransientShape.Exponential => RawExponential(x),
        _ => (1 - (x * x)) * PortableMath.Exp(-0.5 * x * x),
    });

    private static double RawBiphasic(double x) => x * x * (3 - x) * PortableMath.Exp(-x);

    private static double RawExponential(double x)
    {
        double rest = 1 - PortableMath.Exp(-x / Rise);
        return rest * rest * rest * PortableMath.Exp(-x);
    }

    // ∫ (1 − e^(−x/ρ))^(3p) e^(−px) dx = Σ (−1)^i C(3p, i) / (p + i/ρ).
    private static double Exponentials(int power)
    {
        double sum = 0;
        double binomial = 1;
        int n = 3 * power;
        for (int i = 0; i <= n; i++)
        {
            sum += binomial / (power + (i / Rise));
            binomial *= -(double)(n - i) / (i + 1);
        }

        return sum;
    }

    // ∫ x⁸(3 − x)⁴ e^(−4x) dx by ∫ xⁿ e^(−4x) dx = n!/4^(n+1).
    private static double BiphasicFourth()
    {
        double[] factors = [81, -108, 54, -12, 1];
        double sum = 0;
        double moment = 0.25;
        for (int n = 1; n <= 12; n++)
        {
            moment *= n / 4.0;
            sum += n >= 8 ? factors[n - 8] * moment : 0;
        }

        return sum;
    }
}
