// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Movement;

/// <summary>Acceleration of the sensor's place on the body as a function of time: gravity, gait, and movements of hand and vehicle.</summary>
/// <remarks>
/// Axis x points forward, y to the left, z up when upright. What is drawn on a grid (<see cref="MovementGrid"/>) agrees with
/// <see cref="Acceleration"/> within 1e-9 of the largest acceleration. Immutable, and safe for several threads.
/// </remarks>
public sealed class MovementModel
{
    /// <summary>Creates movement from its knobs.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public MovementModel(KeyValues values, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(values);
        Posture = new PostureCourse(values);
        Gait = new Gait(values, seed);
        Typing = new Typing(values, seed);
        Gestures = new Gestures(values, seed);
        Tremor = new Tremor(values, seed);
        Taps = new Taps(values, seed);
        Vehicle = new Vehicle(values, seed);
        IsMoving = !(Gait.IsOff && Typing.IsOff && Gestures.IsOff && Tremor.IsOff && Taps.IsOff && Vehicle.IsOff);
    }

    /// <summary>Whether there is ever anything beside gravity of the posture.</summary>
    public bool IsMoving { get; }

    /// <summary>Whether acceleration never changes.</summary>
    public bool IsStill => !IsMoving && Posture.IsConstant;

    /// <summary>Cadence of the gait that the levels of movement refer to [Hz]: the first that occurs, walking if none does.</summary>
    public double ReferenceCadenceHz => Gait.ReferenceHz;

    /// <summary>Mean power of the reference gait over that of its steady lines: what variation from step to step adds.</summary>
    public double ReferencePowerGain => Gait.PowerGain;

    internal PostureCourse Posture { get; }

    internal Gait Gait { get; }

    internal Typing Typing { get; }

    internal Gestures Gestures { get; }

    internal Tremor Tremor { get; }

    internal Taps Taps { get; }

    internal Vehicle Vehicle { get; }

    /// <summary>Acceleration at a time [g], gravity included, each part by its definition. Slow: for tests and single values.</summary>
    /// <param name="seconds">Body time [s].</param>
    public Axes Acceleration(double seconds)
    {
        Axes gravity = Gravity(seconds);
        Axes sum = gravity + Gait.At(seconds) + Gestures.At(seconds, gravity);
        return sum + Typing.At(seconds) + Taps.At(seconds) + Tremor.At(seconds) + Vehicle.At(seconds);
    }

    /// <summary>Gravity at a time [g], as the posture has it; magnitude 1.</summary>
    /// <param name="seconds">Body time [s].</param>
    public Axes Gravity(double seconds) => Posture.At(seconds);

    /// <summary>Whether gravity stays what it is for a while.</summary>
    /// <param name="beginSeconds">Begin of the while, body time [s].</param>
    /// <param name="endSeconds">Its end [s].</param>
    /// <param name="gravity">Receives gravity at its begin [g].</param>
    public bool IsGravitySteady(double beginSeconds, double endSeconds, out Axes gravity) =>
        Posture.IsSteady(beginSeconds, endSeconds, out gravity);

    /// <summary>Line of the reference gait at a multiple of its stride, steady and without variation, as it stands before the first change.</summary>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    /// <param name="multiple">Multiple of the stride (half the cadence), from 1.</param>
    /// <param name="sineG">Receives the factor of the sine [g].</param>
    /// <param name="cosineG">Receives the factor of the cosine [g].</param>
    public void ReferenceLine(int axis, int multiple, out double sineG, out double cosineG)
    {
        // A size that begins at 0 says nothing of the gait: then that of the site.
        double amplitude = Gait.Reference.BaseAmplitudeG > 0 ? Gait.Reference.BaseAmplitudeG : Gait.Reference.Shape.AmplitudeG;
        Gait.Reference.Shape.Line(axis, multiple, out double sine, out double cosine);
        sineG = amplitude * sine;
        cosineG = amplitude * cosine;
    }
}
