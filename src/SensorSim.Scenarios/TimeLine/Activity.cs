// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.TimeLine;

/// <summary>A size that grows with the intensity.</summary>
/// <param name="Easy">At intensity 0.</param>
/// <param name="Hard">At intensity 1.</param>
public readonly record struct Graded(double Easy, double Hard)
{
    /// <summary>The size at an intensity.</summary>
    /// <param name="intensity">0 to 1.</param>
    public double At(double intensity) => Easy + (intensity * (Hard - Easy));
}

/// <summary>A named building block of the time line: what a doing does to the body, relative to the same person sitting.</summary>
public sealed record Activity
{
    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Word of the key <c>movement.activity</c>.</summary>
    public required string Movement { get; init; }

    /// <summary>Word of the key <c>movement.posture</c>.</summary>
    public required string Posture { get; init; }

    /// <summary>Whether it is exercise: graded by an intensity, and left with the time constant of recovery.</summary>
    public bool IsExercise { get; init; }

    /// <summary>Time constant with which rate, breathing, pressure and variability are approached [s].</summary>
    public required double SettleSeconds { get; init; }

    /// <summary>Factor on the resting heart rate.</summary>
    public double HeartFactor { get; init; } = 1;

    /// <summary>Share of the heart rate reserve (largest rate less resting rate) that is used.</summary>
    public Graded HeartReserve { get; init; }

    /// <summary>Factor on the breathing rate at rest.</summary>
    public double BreathingFactor { get; init; } = 1;

    /// <summary>Share of the way from the breathing rate at rest to the largest one.</summary>
    public Graded BreathingReserve { get; init; }

    /// <summary>What is added to the diastolic pressure [mmHg].</summary>
    public Graded DiastolicMmhg { get; init; }

    /// <summary>What is added to the pulse pressure [mmHg].</summary>
    public Graded PulsePressureMmhg { get; init; }

    /// <summary>Share of the way from the pulse pressure at rest to the largest one.</summary>
    public Graded PulsePressureReserve { get; init; }

    /// <summary>Factor on the respiratory variability of the RR interval.</summary>
    public Graded RespiratoryVariability { get; init; } = new(1, 1);

    /// <summary>Factor on the slow variability of the RR interval.</summary>
    public Graded SlowVariability { get; init; } = new(1, 1);

    /// <summary>Steps in a second; null when the person stays in place.</summary>
    public Graded? CadenceHz { get; init; }
}
