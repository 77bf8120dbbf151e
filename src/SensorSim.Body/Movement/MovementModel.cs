// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Acceleration of the sensor's place on the body: gravity, and while walking a few harmonics of half the cadence.</summary>
/// <remarks>
/// Axis x points forward (arm swing, at half the cadence), y sideways, z up. Every term is amplitude × sin(k × phase) + quadrature ×
/// cos(k × phase), with the phase that of the stride (two steps). Relative sizes are a choice of this project.
/// </remarks>
public sealed class MovementModel
{
    /// <summary>Multiples k of the stride that occur: arm swing, step, its second and third harmonic.</summary>
    public static readonly double[] Multiples = [1, 2, 4, 6];

    // Rows: x, y, z. Columns: sine and cosine factor for each multiple, relative to the vertical amplitude at the cadence.
    private static readonly double[][] s_factors =
    [
        [0.8, 0, 0.2, 0.3, 0, 0.1, 0.05, 0],
        [0.3, 0.1, 0.1, 0, 0.05, 0, 0, 0.02],
        [0, 0.1, 1, 0, 0.2, 0.3, 0.1, 0.1],
    ];

    private static readonly double[] s_gravityG = [0, 0, 1];
    private readonly double _amplitudeG;

    /// <summary>Creates movement from its knobs.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public MovementModel(KeyValues values, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(values);
        IsMoving = values[MovementKeys.Activity] == "walking" && values[MovementKeys.AmplitudeG] > 0;
        _amplitudeG = IsMoving ? values[MovementKeys.AmplitudeG] : 0;
        Stride = new WanderingPhase(
            new KeyedRandom(seed, "movement.stride"),
            values[MovementKeys.CadenceHz] / 2,
            values[MovementKeys.CadenceSpreadHz] / 2,
            0.005,
            0.1);
    }

    /// <summary>Whether there is anything beside gravity.</summary>
    public bool IsMoving { get; }

    /// <summary>Phase of the stride (two steps).</summary>
    public WanderingPhase Stride { get; }

    /// <summary>Constant acceleration along an axis [g].</summary>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    public static double GravityG(int axis) => s_gravityG[axis];

    /// <summary>Factor of the sine of a multiple of the stride along an axis [g].</summary>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    /// <param name="multiple">Index into <see cref="Multiples"/>.</param>
    public double SineG(int axis, int multiple) => _amplitudeG * s_factors[axis][2 * multiple];

    /// <summary>Factor of the cosine of a multiple of the stride along an axis [g].</summary>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    /// <param name="multiple">Index into <see cref="Multiples"/>.</param>
    public double CosineG(int axis, int multiple) => _amplitudeG * s_factors[axis][(2 * multiple) + 1];
}
