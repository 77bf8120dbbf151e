// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>A cubic for a loop over many places, four at a time: its factors stand in whole vectors from the beginning.</summary>
internal readonly struct CubicLanes
{
    private readonly Vector256<double> _c0;
    private readonly Vector256<double> _c1;
    private readonly Vector256<double> _c2;
    private readonly Vector256<double> _c3;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public CubicLanes(in SmoothCubic cubic)
    {
        _c0 = Vector256.Create(cubic.C0);
        _c1 = Vector256.Create(cubic.C1);
        _c2 = Vector256.Create(cubic.C2);
        _c3 = Vector256.Create(cubic.C3);
    }

    /// <summary>The cubic at four places: as <see cref="SmoothCubic.At(double)"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> At(Vector256<double> u) => _c0 + (u * (_c1 + (u * (_c2 + (u * _c3)))));
}
