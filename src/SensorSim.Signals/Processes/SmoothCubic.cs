// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;

namespace SensorSim.Signals.Processes;

/// <summary>A cubic B-spline between two nodes: c0 + c1 u + c2 u² + c3 u³, u from 0 to 1.</summary>
public readonly record struct SmoothCubic
{
    /// <summary>Creates the cubic.</summary>
    /// <param name="nodes">The node before, the two, and the one after.</param>
    public SmoothCubic(ReadOnlySpan<double> nodes)
    {
        double d = nodes[3];
        double a = nodes[0];
        double b = nodes[1];
        double c = nodes[2];
        C0 = (a + (4 * b) + c) / 6;
        C1 = (c - a) / 2;
        C2 = (a - (2 * b) + c) / 2;
        C3 = (d - a + (3 * (b - c))) / 6;
    }

    /// <summary>Value at the first node.</summary>
    public double C0 { get; }

    /// <summary>Factor of u.</summary>
    public double C1 { get; }

    /// <summary>Factor of u².</summary>
    public double C2 { get; }

    /// <summary>Factor of u³.</summary>
    public double C3 { get; }

    /// <summary>The spline at a place from 0 to 1.</summary>
    public double At(double u) => C0 + (u * (C1 + (u * (C2 + (u * C3)))));

    /// <summary>The spline at four places: the same operations, so the same bits.</summary>
    public Vector256<double> At(Vector256<double> u) =>
        Vector256.Create(C0) + (u * (Vector256.Create(C1) + (u * (Vector256.Create(C2) + (u * C3)))));
}
