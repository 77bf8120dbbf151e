// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;

namespace SensorSim.Signals.Processes;

/// <summary>The sine of one multiple of a wandering phase on a grid: a <see cref="RotationGroup"/> of one.</summary>
public sealed class Rotation
{
    private readonly RotationGroup _group;

    /// <summary>Creates the sine of a multiple of a phase.</summary>
    /// <param name="phase">The phase.</param>
    /// <param name="multiple">1 for the fundamental, 2 for the second harmonic, 0.5 for the half.</param>
    public Rotation(WanderingPhase phase, double multiple) => _group = new RotationGroup(phase, [multiple]);

    private Rotation(RotationGroup group) => _group = group;

    /// <summary>Adds amplitude × sin(phase) + quadrature × cos(phase) to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    /// <param name="amplitude">Factor of the sine.</param>
    /// <param name="quadrature">Factor of the cosine.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, double amplitude, double quadrature) =>
        _group.Add(buffer, grid, firstIndex, Vector256.CreateScalar(amplitude), Vector256.CreateScalar(quadrature));

    /// <summary>An independent copy with the same state.</summary>
    public Rotation Copy() => new(_group.Copy());
}
