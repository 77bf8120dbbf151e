// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Tests.Movement;

/// <summary>A second movement along one direction beside the axes: the product of direction and acceleration, and no bit of the axes.</summary>
public sealed class MovementBesideTests
{
    private static readonly Axes s_direction = new(0.6, -0.3, 1);

    // The closed form is on three axes, gravity of the posture included; agreement as on the axes themselves.
    [TestCase(10, 0)]
    [TestCase(52, 0.000250)]
    [TestCase(100, 0.004)]
    [TestCase(500, 0)]
    public void Beside_WithoutAVehicle_IsTheDirectionTimesTheClosedForm(double rateHz, double startSeconds)
    {
        KeyValues values = MovementGridTests.Everything().SetChanges(HandMovementKeys.VehicleGRms, [], []).Set(HandMovementKeys.VehicleGRms, 0);
        var grid = new SampleGrid(startSeconds, 1 / rateHz);
        var other = new MovementModel(values, 8);
        double[] drawn = Beside(values, other, s_direction, grid, 60);
        Assert.That(drawn.Max(), Is.GreaterThan(2), "there is running in it");
        for (int i = 0; i < drawn.Length; i += rateHz > 200 ? 17 : 1)
        {
            double seconds = grid.Seconds(i);
            double exact = s_direction.Dot(other.Acceleration(seconds) - other.Gravity(seconds));
            Assert.That(drawn[i], Is.EqualTo(exact).Within(1e-9), $"sample {i}");
        }
    }

    [Test]
    public void Beside_Drawn_ChangesNoBitOfTheAxes()
    {
        KeyValues values = MovementGridTests.Everything();
        var grid = new SampleGrid(0.004, 0.01);
        var model = new MovementModel(values, 3);
        var alone = new MovementGrid(model, grid, hasGravity: false);
        var both = new MovementGrid(model, grid, new MovementModel(values, 8), s_direction);
        for (long block = 0; block < 45; block++)
        {
            for (int axis = 0; axis < 3; axis++)
            {
                Assert.That(both.Block(block, axis).ToArray(), Is.EqualTo(alone.Block(block, axis).ToArray()), $"block {block}, axis {axis}");
            }
        }
    }

    // Each axis has the knob's rms, independent of the others: along a direction it is that times its length. Vibration of 1 to 15 Hz has some
    // 25 independent values a second; 4 standard errors of the rms over 2000 s are 4 √(1 / (2 · 50000)).
    [Test]
    public void Beside_InAVehicle_HasThePowerOfThreeAxes()
    {
        KeyValues values = new KeyValues().Set(HandMovementKeys.VehicleGRms, 0.1);
        double[] drawn = Beside(values, new MovementModel(values, 8), s_direction, new SampleGrid(0, 0.01), 2000);
        Assert.That(Drawn.Rms(drawn), Is.EqualTo(0.1 * s_direction.Magnitude).Within(1.3).Percent);
        double[] axis = Drawn.Of(values, 2000, seed: 8).X;
        Assert.That(drawn.Zip(axis, (a, b) => a - (s_direction.Magnitude * b)), Has.All.Zero.Within(1e-12), "the other's x stands for it");
        double[] own = Drawn.Of(values, 2000).X;
        double shared = drawn.Zip(own, (a, b) => a * b).Average() / (Drawn.Rms(drawn) * Drawn.Rms(own));
        Assert.That(shared, Is.Zero.Within(4 / Math.Sqrt(50000)), "and nothing of the movement that is measured");
    }

    [Test]
    public void Beside_OfACopyFromAnyPlace_IsTheSameBits()
    {
        KeyValues values = MovementGridTests.Everything();
        var grid = new SampleGrid(0, 1.0 / 52);
        var movement = new MovementGrid(new MovementModel(values, 3), grid, new MovementModel(values, 8), s_direction);
        double[][] whole = [.. Enumerable.Range(0, 40).Select(block => movement.Block(block, MovementGrid.Beside).ToArray())];
        foreach (int block in new[] { 33, 12, 13, 0, 39 })
        {
            Assert.That(movement.Copy().Block(block, MovementGrid.Beside).ToArray(), Is.EqualTo(whole[block]), $"block {block}");
            Assert.That(movement.Block(block, MovementGrid.Beside).ToArray(), Is.EqualTo(whole[block]), $"block {block} again");
        }
    }

    private static double[] Beside(KeyValues values, MovementModel other, Axes direction, SampleGrid grid, int seconds)
    {
        var movement = new MovementGrid(new MovementModel(values, 3), grid, other, direction);
        int blocks = (int)(seconds / grid.StepSeconds) / movement.BlockLength;
        return [.. Enumerable.Range(0, blocks).SelectMany(block => movement.Block(block, MovementGrid.Beside).ToArray())];
    }
}
