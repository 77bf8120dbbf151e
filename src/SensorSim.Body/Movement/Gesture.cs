// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Movement;

/// <summary>One gesture: out and back along a bell, turning on the way.</summary>
/// <param name="MiddleSeconds">Its middle [s].</param>
/// <param name="HalfSeconds">Half of its duration [s].</param>
/// <param name="PeakG">Acceleration towards its end, peak [g].</param>
/// <param name="Turns">How far the sensor turns [turns].</param>
/// <param name="TurnAxis">About which axis, of length 1.</param>
internal readonly record struct Gesture(double MiddleSeconds, double HalfSeconds, Axes PeakG, double Turns, Axes TurnAxis)
{
    /// <summary>Half of the longest gesture's duration [s].</summary>
    public const double LongestHalfSeconds = 1;

    /// <summary>Acceleration of the hand [g]; turns gravity on the way.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="gravity">Gravity, turned by what this gesture turns.</param>
    public Axes At(double seconds, ref Axes gravity)
    {
        double u = (seconds - MiddleSeconds) / HalfSeconds;
        double rest = 1 - (u * u);
        if (rest <= 0)
        {
            return default;
        }

        double bell = rest * rest * rest * rest;
        PortableMath.SinCosTurns(Turns * bell, out double sin, out double cos);
        gravity = gravity.Turned(TurnAxis, sin, cos);
        return (rest * rest * ((7 * u * u) - 1)) * PeakG;
    }

    /// <summary>The same at four times; before and after it adds nothing and turns nothing.</summary>
    /// <param name="seconds">Times [s].</param>
    /// <param name="gravity">Gravity, turned by what this gesture turns.</param>
    /// <param name="sum">Gets the acceleration of the hand [g].</param>
    public void Add(Vector256<double> seconds, ref AxesLanes gravity, ref AxesLanes sum)
    {
        Vector256<double> u = (seconds - Vector256.Create(MiddleSeconds)) / Vector256.Create(HalfSeconds);
        Vector256<double> square = u * u;
        Vector256<double> rest = Vector256.Max(Vector256<double>.Zero, Vector256<double>.One - square);
        Vector256<double> rest2 = rest * rest;
        PortableMath.SinCosTurns((rest2 * rest2) * Turns, out Vector256<double> sin, out Vector256<double> cos);
        gravity = gravity.Turned(TurnAxis, sin, cos);
        sum.Add(rest2 * ((square * 7) - Vector256<double>.One), PeakG);
    }
}
