// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Movement;

public sealed class AxisErrorTests
{
    private static readonly ChannelName[] s_axes = [ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ];

    // 0, 0 and 1 g of gravity, times 1 + gain error, plus offset.
    [Test]
    public void Rest_WithOffsetsAndGainErrors_IsAsComputedByHand()
    {
        KeyValues values = Settings.Fine();
        double[] offsets = [35, -60, 20];
        double[] gains = [3, -2, 1.5];
        for (int axis = 0; axis < 3; axis++)
        {
            values.Set(AxisErrorKeys.OffsetMg[axis], offsets[axis]).Set(AxisErrorKeys.GainErrorPercent[axis], gains[axis]);
        }

        Assert.That(Rest(values), Is.EqualTo(new[] { 0.035, -0.060, 1.015 + 0.020 }).Within(1e-5));
    }

    // scipy 1.10.1: Rotation.from_euler('xyz', angles, degrees=True).as_matrix().T @ [0, 0, 1], gravity in the turned sensor's axes.
    [TestCase(0, 90, 0, -1.0, 0.0, 0.0)]
    [TestCase(90, 0, 0, 0.0, 1.0, 0.0)]
    [TestCase(0, 0, 90, 0.0, 0.0, 1.0)]
    [TestCase(10, 20, 30, -0.342020143326, 0.163175911167, 0.925416578398)]
    [TestCase(-35, 120, 75, -0.866025403784, 0.286788218176, -0.409576022144)]
    public void Rest_WithATurnedSensor_IsGravityInItsAxes(double x, double y, double z, double gx, double gy, double gz) =>
        Assert.That(Rest(Turned(Settings.Fine(), x, y, z)), Is.EqualTo(new[] { gx, gy, gz }).Within(1e-5));

    // Same matrix from scipy 1.10.1, rounded to twelve digits, on everything that the body does: rotation turns each sample and keeps its length.
    [Test]
    public void Walking_WithATurnedSensor_IsEachSampleTurned()
    {
        KeyValues values = Settings.Fine().Set(MovementKeys.Activity, "walking");
        double[][] straight = Axes(Recording.Of(values, 30));
        double[][] turned = Axes(Recording.Of(Turned(values.Copy(), 10, 20, 30), 30));
        double[,] matrix = Matrix(10, 20, 30);
        double code = Recording.Of(values, 1).Channel(ChannelName.AccelX).UnitPerCode;
        for (int i = 0; i < straight[0].Length; i++)
        {
            for (int axis = 0; axis < 3; axis++)
            {
                double expected = (matrix[0, axis] * straight[0][i]) + (matrix[1, axis] * straight[1][i]) + (matrix[2, axis] * straight[2][i]);
                Assert.That(turned[axis][i], Is.EqualTo(expected).Within(1.4 * code), $"axis {axis}, sample {i}");
            }
        }
    }

    // 1 g and half a g of offset in a range of 1 g.
    [Test]
    public void Range_Left_IsFlagged()
    {
        Recording recording = Recording.Of(new KeyValues().Set(AccelerometerKeys.RangeG, 1).Set(AxisErrorKeys.OffsetMg[2], 500), 2);
        Assert.That(recording.Status(ChannelName.AccelZ), Has.All.EqualTo((ushort)SampleStatus.OverRange));
        Assert.That(recording.Codes(ChannelName.AccelZ), Has.All.EqualTo(recording.Channel(ChannelName.AccelZ).MaximumCode));
        Assert.That(recording.Status(ChannelName.AccelX), Has.All.Zero);
    }

    private static double[][] Axes(Recording recording) => [.. s_axes.Select(recording.Physical)];

    private static double[] Rest(KeyValues values) => [.. Axes(Recording.Of(values, 2)).Select(a => a.Average())];

    private static KeyValues Turned(KeyValues values, double x, double y, double z) => values
        .Set(AxisErrorKeys.TurnedDeg[0], x).Set(AxisErrorKeys.TurnedDeg[1], y).Set(AxisErrorKeys.TurnedDeg[2], z);

    // Rz · Ry · Rx written out (textbook); at 10, 20, 30 degrees its last row is the case of rest above.
    private static double[,] Matrix(double xDeg, double yDeg, double zDeg)
    {
        (double sx, double cx) = Math.SinCos(xDeg * Math.PI / 180);
        (double sy, double cy) = Math.SinCos(yDeg * Math.PI / 180);
        (double sz, double cz) = Math.SinCos(zDeg * Math.PI / 180);
        return new[,]
        {
            { cz * cy, (cz * sy * sx) - (sz * cx), (cz * sy * cx) + (sz * sx) },
            { sz * cy, (sz * sy * sx) + (cz * cx), (sz * sy * cx) - (cz * sx) },
            { -sy, cy * sx, cy * cx },
        };
    }
}
