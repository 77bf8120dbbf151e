// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Movement;

/// <summary>Where an axis of the sensor points on the body.</summary>
internal static class AxisTurn
{
    /// <summary>Direction of an axis of the sensor in the body's axes: its column of Rz · Ry · Rx (rotations about fixed axes, textbook).</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    public static Axes Direction(KeyValues values, int axis)
    {
        double x = axis == 0 ? 1 : 0;
        double y = axis == 1 ? 1 : 0;
        double z = axis == 2 ? 1 : 0;
        Turn(values, 0, ref y, ref z);
        Turn(values, 1, ref z, ref x);
        Turn(values, 2, ref x, ref y);
        return new Axes(x, y, z);
    }

    private static void Turn(KeyValues values, int about, ref double a, ref double b)
    {
        PortableMath.SinCosTurns(values[AxisErrorKeys.TurnedDeg[about]] / 360, out double sin, out double cos);
        (a, b) = ((cos * a) - (sin * b), (sin * a) + (cos * b));
    }
}
