// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Signals.Processes;

/// <summary>y(n) = keep × y(n − 1) + d(n), four outputs at a time.</summary>
/// <remarks>
/// Four outputs wait for the four before them once, not each for its neighbour: within the four, the outputs from rest (y₁ = d₁,
/// y₂ = d₂ + k d₁, …) come first, and what the last output leaves, k to k⁴ of it, then.
/// </remarks>
public struct OnePoleLanes
{
    private readonly Vector256<double> _near;
    private readonly Vector256<double> _far;
    private readonly Vector256<double> _left;
    private Vector256<double> _last;

    /// <summary>Creates the recurrence.</summary>
    /// <param name="keep">Share of an output that the next one keeps.</param>
    /// <param name="state">Output before the first.</param>
    public OnePoleLanes(double keep, double state)
    {
        double keep2 = keep * keep;
        _near = Vector256.Create(0, keep, keep, keep);
        _far = Vector256.Create(0, 0, keep2, keep2);
        _left = Vector256.Create(keep, keep2, keep2 * keep, keep2 * keep2);
        _last = Vector256.Create(state);
    }

    /// <summary>The next four outputs.</summary>
    /// <param name="d">What is added to each.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> Next(Vector256<double> d)
    {
        d += _near * Vector256.Shuffle(d, Vector256.Create(0L, 0, 1, 2));
        d += _far * Vector256.Shuffle(d, Vector256.Create(0L, 0, 0, 1));
        d += _left * _last;
        _last = Vector256.Shuffle(d, Vector256.Create(3L, 3, 3, 3));
        return d;
    }
}
