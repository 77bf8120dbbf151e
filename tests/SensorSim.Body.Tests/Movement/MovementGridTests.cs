// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Body.Movement;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Tests.Movement;

/// <summary>Movement on grids: the closed form on every one, any cut the same bits, nothing allocated. Promises of this project.</summary>
public sealed class MovementGridTests
{
    /// <summary>Everything on, and everything live changing within a minute.</summary>
    internal static KeyValues Everything() => new KeyValues()
        .SetChanges(MovementKeys.Activity, [(4, "walking"), (15.3, "running"), (16.1, "rest"), (20, "running"), (40, "rest")])
        .SetChanges(MovementKeys.Posture, [(3.3, "supine"), (4.1, "left_side"), (30, "prone"), (33, "upright")])
        .SetChanges(MovementKeys.CadenceHz, [new CourseChange(10, ChangeKind.Ramp, 3, 8), Drawn.Step(30, 2.2)], [new Oscillation(0, 60, 0.1, 7)])
        .SetChanges(MovementKeys.AmplitudeG, [Drawn.Step(8, 1.5), new CourseChange(20, ChangeKind.Settle, 3, 4)], [])
        .Set(HandMovementKeys.TypingG, 0.1)
        .SetChanges(HandMovementKeys.TremorG, [Drawn.Step(6, 0.3)], [])
        .Set(HandMovementKeys.GesturesPerMin, 15)
        .SetChanges(HandMovementKeys.GestureG, [Drawn.Step(25, 3)], [])
        .SetChanges(HandMovementKeys.TapsPerMin, [Drawn.Step(5, 100)], [])
        .Set(HandMovementKeys.VehicleGRms, 0.05)
        .SetChanges(HandMovementKeys.VehicleGRms, [Drawn.Step(12, 0.2)], []);

    // Errors of turning grow with the cube of the groups since the last exact place; 4000 Hz has thirty such places in a second, 100.3 Hz seconds that end
    // within a group, 10 Hz large angles.
    [TestCase(10)]
    [TestCase(100.3)]
    [TestCase(4000)]
    public void Add_GaitOfAWanderingCadence_TurnsWithoutDrifting(double rateHz)
    {
        KeyValues values = new KeyValues()
            .SetChanges(MovementKeys.Activity, [(2, "walking"), (9, "running")])
            .Set(MovementKeys.CadenceSpreadHz, 0.3);
        var model = new MovementModel(values, 5);
        var drawn = Drawn.Of(values, 16, rateHz, 5);
        for (int i = 0; i < drawn.X.Length; i += rateHz > 200 ? 7 : 1)
        {
            Axes exact = model.Acceleration(new SampleGrid(0, 1 / rateHz).Seconds(i));
            Assert.That(drawn.X[i], Is.EqualTo(exact.X).Within(2e-11), $"x, sample {i}");
            Assert.That(drawn.Y[i], Is.EqualTo(exact.Y).Within(2e-11), $"y, sample {i}");
            Assert.That(drawn.Z[i], Is.EqualTo(exact.Z).Within(2e-11), $"z, sample {i}");
        }
    }

    // The grid multiplies from sample to sample where the closed form has exponentials: agreement to some hundred roundings of the size.
    [TestCase(10, 0)]
    [TestCase(50, 0)]
    [TestCase(52, 0.000250)]
    [TestCase(100, 0.003)]
    [TestCase(1000, 0)]
    public void Add_AnyGrid_IsTheClosedForm(double rateHz, double startSeconds)
    {
        var model = new MovementModel(Everything(), 3);
        Drawn drawn = Drawn.Of(Everything(), 60, rateHz, 3, startSeconds);
        Assert.That(drawn.Z.Max(), Is.GreaterThan(4), "there is running in it");
        for (int i = 0; i < drawn.X.Length; i += rateHz > 200 ? 17 : 1)
        {
            Axes exact = model.Acceleration(new SampleGrid(startSeconds, 1 / rateHz).Seconds(i));
            Assert.That(drawn.X[i], Is.EqualTo(exact.X).Within(1e-9), $"x, sample {i}");
            Assert.That(drawn.Y[i], Is.EqualTo(exact.Y).Within(1e-9), $"y, sample {i}");
            Assert.That(drawn.Z[i], Is.EqualTo(exact.Z).Within(1e-9), $"z, sample {i}");
        }
    }

    [Test]
    public void Add_AnyCutAxisByAxis_GivesTheSameBits()
    {
        Drawn whole = Drawn.Of(Everything(), 40, 52);
        var grid = new SampleGrid(0, 1.0 / 52);
        Gen.Int[1, 130].Array[1, 7].Sample(
            cuts =>
            {
                var movement = new MovementGrid(new MovementModel(Everything(), 3), grid);
                for (int done = 0, k = 0; done < whole.X.Length; k++)
                {
                    int count = Math.Min(cuts[k % cuts.Length], whole.X.Length - done);
                    for (int axis = 0; axis < 3; axis++)
                    {
                        double[] part = new double[count];
                        movement.Add(axis, part, done);
                        Assert.That(part, Is.EqualTo(whole.Axis(axis).AsSpan(done, count).ToArray()), $"axis {axis}, from {done}");
                    }

                    done += count;
                }
            },
            iter: 40,
            threads: 1);
    }

    [Test]
    public void Add_FromAnyPlaceAndACopy_GivesTheSameBits()
    {
        Drawn whole = Drawn.Of(Everything(), 40, 52);
        var movement = new MovementGrid(new MovementModel(Everything(), 3), new SampleGrid(0, 1.0 / 52));
        foreach (int from in new[] { 1700, 700, 777, 5, 1999 })
        {
            double[] here = new double[60];
            movement.Add(2, here, from);
            Assert.That(here, Is.EqualTo(whole.Z[from..(from + 60)]));
            double[] there = new double[60];
            movement.Copy().Add(2, there, from);
            Assert.That(there, Is.EqualTo(here));
        }
    }

    [Test]
    public void Add_AfterWarmUp_AllocatesNothing()
    {
        var movement = new MovementGrid(new MovementModel(Everything(), 3), new SampleGrid(0, 0.02));
        double[] x = new double[50];
        movement.Add(x, x, x, 0);
        movement.Add(x, x, x, 50);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 600; i++)
        {
            movement.Add(x, x, x, 100 + (50L * i));
        }

        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.Zero);
    }

    [Test]
    public void Add_WithoutGravity_IsTheRest()
    {
        KeyValues values = Drawn.Steady();
        double[] with = new double[200];
        double[] without = new double[200];
        var model = new MovementModel(values, 3);
        var grid = new SampleGrid(0, 0.02);
        new MovementGrid(model, grid).Add(2, with, 0);
        new MovementGrid(model, grid, hasGravity: false).Add(2, without, 0);
        Assert.That(with.Zip(without, (a, b) => a - b), Has.All.EqualTo(1).Within(1e-14));
    }
}
