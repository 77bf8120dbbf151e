// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

/// <summary>Elementary functions (interim).</summary>
public static class PortableMath
{
    /// <summary>Sine of an angle [rad].</summary>
    /// <param name="x">Angle.</param>
    public static double Sin(double x) => Math.Sin(x);

    /// <summary>Cosine of an angle [rad].</summary>
    /// <param name="x">Angle.</param>
    public static double Cos(double x) => Math.Cos(x);

    /// <summary>Sine and cosine of an angle in turns.</summary>
    /// <param name="turns">Angle [turns].</param>
    /// <param name="sin">Sine.</param>
    /// <param name="cos">Cosine.</param>
    public static void SinCosTurns(double turns, out double sin, out double cos)
    {
        double r = 2 * Math.PI * (turns - Math.Floor(turns));
        sin = Math.Sin(r);
        cos = Math.Cos(r);
    }

    /// <summary>Exponential.</summary>
    /// <param name="x">Exponent.</param>
    public static double Exp(double x) => Math.Exp(x);

    /// <summary>Natural logarithm.</summary>
    /// <param name="x">Argument.</param>
    public static double Log(double x) => Math.Log(x);

    /// <summary>Power.</summary>
    /// <param name="x">Base.</param>
    /// <param name="y">Exponent.</param>
    public static double Pow(double x, double y) => Math.Pow(x, y);

    /// <summary>Angle of a point [rad].</summary>
    /// <param name="y">Ordinate.</param>
    /// <param name="x">Abscissa.</param>
    public static double Atan2(double y, double x) => Math.Atan2(y, x);
}
