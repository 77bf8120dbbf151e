// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
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

        // Only the samples that a gesture reaches; few blocks have any.
        long first = First(block.BeginSeconds);
        long last = Last(block.EndSeconds);
        int from = block.Count;
        int to = 0;
        for (long k = first; k <= last; k++)
        {
            ref readonly MovementMemory.KnownGesture known = ref Known(block.Memory, k);
            if (known.IsKept)
            {
                double middle = known.Gesture.MiddleSeconds;
                double half = known.Gesture.HalfSeconds;
                block.Between(middle - half, middle + half, out int begin, out int end);
                from = begin < end ? Math.Min(from, begin) : from;
                to = begin < end ? Math.Max(to, end) : to;
            }
        }

        if (from >= to)
        {
            return;
        }

        bool isSteady = posture.IsSteady(block.BeginSeconds, block.EndSeconds, out Axes steady);
        for (int i = from; i < to; i += 4)
        {
            Vector256<double> seconds = block.FourSeconds(i);
            var gravity = new AxesLanes(steady);
            for (int lane = 0; lane < 4 && !isSteady; lane++)
            {
                gravity.Set(lane, posture.At(seconds.GetElement(lane)));
            }

            AxesLanes turned = gravity;
            AxesLanes sum = default;
            for (long k = first; k <= last; k++)
            {
                ref readonly MovementMemory.KnownGesture known = ref Known(block.Memory, k);
                if (known.IsKept)
                {
                    known.Gesture.Add(seconds, ref turned, ref sum);
                }
            }

            for (int row = 0; row < block.Rows.Length; row++)
            {
                ref double target = ref block.Rows[row][i];
                (Vector256.LoadUnsafe(ref target) + sum.Along(block.Directions[row], turned, gravity)).StoreUnsafe(ref target);
            }
        }
    }

    private ref readonly MovementMemory.KnownGesture Known(MovementMemory memory, long k)
    {
        ref MovementMemory.KnownGesture known = ref memory.Gesture(k);
        if (known.Number != k)
        {
            known.Number = k;
            known.IsKept = TryGesture(k, out known.Gesture);
        }

        return ref known;
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
}
