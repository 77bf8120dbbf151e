// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Body.Site;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Movement;

/// <summary>Gravity in the sensor's axes: x forward, y to the left, z up when upright.</summary>
public sealed class PostureTests
{
    private static IEnumerable<string> Sites => SiteKeys.Site.Choices;

    // An accelerometer at rest shows 1 g upwards, whatever its turn (definition of specific force; textbook).
    [Test]
    public void Gravity_AnyPostureAndTurn_IsOneG([ValueSource(nameof(Sites))] string site)
    {
        KeyValues values = new KeyValues().Set(SiteKeys.Site, site).SetChanges(
            MovementKeys.Posture,
            [(2, "supine"), (6, "prone"), (7.1, "left_side"), (7.9, "right_side"), (12, "upright"), (16, "upright"), (20, "left_side"), (25, "supine")]);
        Drawn drawn = Drawn.Of(values, 30);
        Assert.That(drawn.Magnitude(), Has.All.EqualTo(1).Within(1e-12));

        // No jump, even where a turn is cut short: at most half a turn in 2 s, 1.5 times as fast in its middle.
        for (int i = 1; i < drawn.X.Length; i++)
        {
            double dx = drawn.X[i] - drawn.X[i - 1];
            double dy = drawn.Y[i] - drawn.Y[i - 1];
            double dz = drawn.Z[i] - drawn.Z[i - 1];
            Assert.That(Math.Sqrt((dx * dx) + (dy * dy) + (dz * dz)), Is.LessThanOrEqualTo(Math.PI / 2 * 1.5 / 100 * 1.001), $"sample {i}");
        }
    }

    // Anatomy: who lies on the back has the chest's front up, on the left side the right one.
    [TestCase("upright", 0, 0, 1)]
    [TestCase("supine", 1, 0, 0)]
    [TestCase("prone", -1, 0, 0)]
    [TestCase("left_side", 0, -1, 0)]
    [TestCase("right_side", 0, 1, 0)]
    public void Gravity_AtTheChest_IsAsTheBodyLies(string posture, double x, double y, double z)
    {
        KeyValues values = new KeyValues().Set(SiteKeys.Site, "chest").Set(MovementKeys.Posture, posture);
        Assert.That(new MovementModel(values, 1).Acceleration(3), Is.EqualTo(new Axes(x, y, z)));
    }

    [Test]
    public void Gravity_ByPosture_DiffersAtEverySite([ValueSource(nameof(Sites))] string site) =>
        Assert.That(
            MovementKeys.Posture.Choices.Select(p => new MovementModel(new KeyValues().Set(SiteKeys.Site, site).Set(MovementKeys.Posture, p), 1).Gravity(0)),
            Is.Unique);

    [Test]
    public void Gravity_PostureChanges_TurnsWithinTwoSecondsFromItsTimeOn()
    {
        KeyValues values = new KeyValues().Set(SiteKeys.Site, "chest").SetChanges(MovementKeys.Posture, [(5, "supine")]);
        var model = new MovementModel(values, 1);
        Assert.That(model.Gravity(5), Is.EqualTo(new Axes(0, 0, 1)));
        Assert.That(model.Gravity(7), Is.EqualTo(new Axes(1, 0, 0)));

        // Half way at 45 degrees.
        Assert.That(model.Gravity(6).X, Is.EqualTo(Math.Sqrt(0.5)).Within(1e-12));
        Assert.That(model.Gravity(6).Z, Is.EqualTo(Math.Sqrt(0.5)).Within(1e-12));
    }

    // From the back to the belly by way of a side, about the body's long axis: never upright in between.
    [Test]
    public void Gravity_FromSupineToProne_RollsAboutTheLongAxis()
    {
        KeyValues values = new KeyValues().Set(SiteKeys.Site, "chest").Set(MovementKeys.Posture, "supine")
            .SetChanges(MovementKeys.Posture, [(5, "prone")]);
        Drawn drawn = Drawn.Of(values, 10);
        Assert.That(drawn.Z, Has.All.Zero.Within(1e-12));
        Assert.That(Math.Abs(drawn.Y[600]), Is.EqualTo(1).Within(1e-12));
        Assert.That(drawn.X[800], Is.EqualTo(-1).Within(1e-12));
    }

    [Test]
    public void Posture_Changed_LeavesGaitAsItIs()
    {
        Drawn upright = Drawn.Of(Drawn.Steady(), 20);
        Drawn supine = Drawn.Of(Drawn.Steady().Set(MovementKeys.Posture, "supine"), 20);
        Drawn difference = supine.Less(upright);
        Assert.That(difference.X, Has.All.Zero.Within(1e-14));
        Assert.That(difference.Y, Has.All.EqualTo(1).Within(1e-14));
        Assert.That(difference.Z, Has.All.EqualTo(-1).Within(1e-14));
    }
}
