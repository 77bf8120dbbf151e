// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Signals.Courses;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>How often transients of electrode motion come: a rate at rest, and one that follows how hard the body moves.</summary>
/// <param name="intensity">How hard the body moves.</param>
/// <param name="perMin">Transients in a minute of the reference gait, those at rest left out.</param>
/// <param name="restPerMin">Transients in a minute at rest.</param>
internal sealed class MotionDrive(MovementIntensity intensity, double perMin, double restPerMin)
{
    /// <summary>Most transients in a second: the rate of the candidates.</summary>
    public const double MostPerSecond = 8;

    /// <summary>Transients in a second of the reference gait.</summary>
    public double ReferencePerSecond { get; } = Math.Min(MostPerSecond, (restPerMin + perMin) / 60);

    /// <summary>Whether none ever comes.</summary>
    public bool IsOff => restPerMin == 0 && (perMin == 0 || intensity.IsOff);

    /// <summary>Whether the rate never changes.</summary>
    public bool IsConstant => perMin == 0 || intensity.IsConstant;

    /// <summary>The courses that the rate follows.</summary>
    public IReadOnlyList<Course> Courses => intensity.Courses;

    /// <summary>Transients in a second.</summary>
    /// <param name="seconds">Body time [s].</param>
    public double PerSecond(double seconds) => Math.Min(MostPerSecond, (restPerMin + (perMin * intensity.At(seconds))) / 60);

    /// <summary>Power against that in the reference gait.</summary>
    /// <param name="seconds">Body time [s].</param>
    public double Relative(double seconds) => IsOff ? 0 : PerSecond(seconds) / ReferencePerSecond;
}
