// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Sensing.Electrodes;

/// <summary>A complex number for alternating voltages and admittances: a sine's in-phase and leading part.</summary>
/// <param name="Real">In phase.</param>
/// <param name="Imaginary">A quarter of a period ahead.</param>
internal readonly record struct Phasor(double Real, double Imaginary)
{
    /// <summary>Its size.</summary>
    public double Magnitude => Math.Sqrt((Real * Real) + (Imaginary * Imaginary));

    public static Phasor operator +(Phasor a, Phasor b) => new(a.Real + b.Real, a.Imaginary + b.Imaginary);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Phasor operator *(Phasor a, Phasor b) =>
        new((a.Real * b.Real) - (a.Imaginary * b.Imaginary), (a.Real * b.Imaginary) + (a.Imaginary * b.Real));

    public static Phasor operator *(double factor, Phasor a) => new(factor * a.Real, factor * a.Imaginary);

    public static Phasor operator /(Phasor a, Phasor b)
    {
        double square = (b.Real * b.Real) + (b.Imaginary * b.Imaginary);
        return new(((a.Real * b.Real) + (a.Imaginary * b.Imaginary)) / square, ((a.Imaginary * b.Real) - (a.Real * b.Imaginary)) / square);
    }
}
