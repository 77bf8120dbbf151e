// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Gestures: the hand goes out and back along a bell (1 − u²)^4, and the sensor turns against gravity along the same bell.</summary>
/// <remarks>
/// <para>Acceleration is the bell's second derivative, (1 − u²)²(7u² − 1) for a peak of 1; the way of a peak of A over half a duration of H
/// is A·g0·H²/8, and the turn that way on a forearm of 0.3 m. Sizes and durations are choices of this project.</para>
/// <para>Thinned from a candidate every three seconds, so that the rate moves no gesture.</para>
/// </remarks>
internal sealed class Gestures(KeyValues values, ulong seed)
{
    private const double EverySeconds = 3;
    private const double StandardGravity = 9.80665;
    private const double ForearmMetres = 0.3;
    private const double MostTurns = 70.0 / 360;
    private const int Draws = 8;
    private readonly LiveSize _size = new(values.Course(HandMovementKeys.GestureG));
    private readonly Course _perMin = values.Course(HandMovementKeys.GesturesPerMin);
    private readonly KeyedRandom _random = new(seed, "movement.gesture");

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => _size.IsOff || (_perMin.IsConstant && _perMin.BaseValue == 0);

    /// <summary>Acceleration at a time [g], and the change of gravity that turning makes.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="gravity">Gravity without gestures.</param>
    public Axes At(double seconds, Axes gravity)
    {
        Axes sum = default;
        Axes turned = gravity;
        for (long k = First(seconds); k <= Last(seconds); k++)
        {
            if (TryGesture(k, out Gesture gesture))
            {
                sum += gesture.At(seconds, ref turned);
            }
        }

        return sum + (turned - gravity);
    }

    /// <summary>Adds both to a block.</summary>
    public void Add(MovementBlock block, PostureCourse posture)
    {
        if (IsOff)
        {
            return;
        }

        for (int i = 0; i < block.Count;)
        {
            // Which two candidates can reach in stays the same for three seconds.
            double now = block.Seconds(i);
            long last = Last(now);
            int end = (int)Math.Min(block.Count, block.Grid.FirstAtOrAfter(((last + 1) * EverySeconds) - Gesture.LongestHalfSeconds) - block.First);
            end = Math.Max(i + 1, end);
            bool hasOne = TryGesture(last - 1, out Gesture one);
            bool hasTwo = TryGesture(last, out Gesture two);
            for (; i < end; i++)
            {
                double seconds = block.Seconds(i);
                if ((hasOne && one.IsActive(seconds)) || (hasTwo && two.IsActive(seconds)))
                {
                    Axes gravity = posture.At(seconds);
                    Axes turned = gravity;
                    Axes sum = hasOne ? one.At(seconds, ref turned) : default;
                    sum += hasTwo ? two.At(seconds, ref turned) : default;
                    sum += turned - gravity;
                    block.X[i] += sum.X;
                    block.Y[i] += sum.Y;
                    block.Z[i] += sum.Z;
                }
            }
        }
    }

    // Candidate k has its middle within [k, k + 1) × 3 s and reaches at most a second beyond.
    private static long First(double seconds) => (long)Math.Floor((seconds - Gesture.LongestHalfSeconds) / EverySeconds);

    private static long Last(double seconds) => (long)Math.Floor((seconds + Gesture.LongestHalfSeconds) / EverySeconds);

    private bool TryGesture(long k, out Gesture gesture)
    {
        gesture = default;
        double middle = (k + _random.Uniform(Draws * k)) * EverySeconds;
        double size = _size.At(middle);
        if (size == 0 || _random.Uniform((Draws * k) + 1) * (60 / EverySeconds) >= _perMin.Value(middle))
        {
            return false;
        }

        double half = 0.4 + (0.6 * _random.Uniform((Draws * k) + 2));
        double peak = size * (0.6 + (0.8 * _random.Uniform((Draws * k) + 3)));
        double turns = Math.Min(MostTurns, peak * StandardGravity * half * half / 8 / ForearmMetres / (2 * Math.PI));
        gesture = new Gesture(middle, half, peak * Direction((Draws * k) + 4), turns, Direction((Draws * k) + 6));
        return true;
    }

    // Even over the sphere: height even, longitude even (Archimedes).
    private Axes Direction(long draw)
    {
        double z = (2 * _random.Uniform(draw)) - 1;
        double r = Math.Sqrt(1 - (z * z));
        PortableMath.SinCosTurns(_random.Uniform(draw + 1), out double sin, out double cos);
        return new Axes(r * cos, r * sin, z);
    }

    private readonly record struct Gesture(double MiddleSeconds, double HalfSeconds, Axes PeakG, double Turns, Axes TurnAxis)
    {
        public const double LongestHalfSeconds = 1;

        public bool IsActive(double seconds) => Math.Abs(seconds - MiddleSeconds) < HalfSeconds;

        // Acceleration of the hand; turns gravity on the way.
        public Axes At(double seconds, ref Axes gravity)
        {
            if (!IsActive(seconds))
            {
                return default;
            }

            double u = (seconds - MiddleSeconds) / HalfSeconds;
            double rest = 1 - (u * u);
            double bell = rest * rest * rest * rest;
            PortableMath.SinCosTurns(Turns * bell, out double sin, out double cos);
            gravity = gravity.Turned(TurnAxis, sin, cos);
            return (rest * rest * ((7 * u * u) - 1)) * PeakG;
        }
    }
}
