// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Movement;

/// <summary>Acceleration, or a direction, along the sensor's three axes: x forward, y to the left, z up when upright.</summary>
/// <param name="X">Forward [g].</param>
/// <param name="Y">To the left [g].</param>
/// <param name="Z">Up [g].</param>
public readonly record struct Axes(double X, double Y, double Z)
{
    /// <summary>Sum of both, axis by axis.</summary>
    public static Axes operator +(Axes a, Axes b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    /// <summary>Difference of both, axis by axis.</summary>
    public static Axes operator -(Axes a, Axes b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    /// <summary>All axes times a factor.</summary>
    public static Axes operator *(double factor, Axes a) => new(factor * a.X, factor * a.Y, factor * a.Z);

    /// <summary>Sum of both, axis by axis.</summary>
    public static Axes Add(Axes left, Axes right) => left + right;

    /// <summary>Difference of both, axis by axis.</summary>
    public static Axes Subtract(Axes left, Axes right) => left - right;

    /// <summary>All axes times a factor.</summary>
    public static Axes Multiply(double left, Axes right) => left * right;

    /// <summary>Length of the vector [g].</summary>
    public double Magnitude => Math.Sqrt(Dot(this));

    /// <summary>Sum of the products of the axes.</summary>
    public double Dot(Axes other) => (X * other.X) + (Y * other.Y) + (Z * other.Z);

    /// <summary>Perpendicular to both, by the right hand.</summary>
    internal Axes Cross(Axes other) => new((Y * other.Z) - (Z * other.Y), (Z * other.X) - (X * other.Z), (X * other.Y) - (Y * other.X));

    /// <summary>Turned about an axis of length 1 (Rodrigues' formula).</summary>
    internal Axes Turned(Axes axis, double sin, double cos) => (cos * this) + (sin * axis.Cross(this)) + (((1 - cos) * axis.Dot(this)) * axis);
}
