// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Movement;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Movement;

/// <summary>Movement and breathing as functions of time.</summary>
public sealed class MovementModelTests
{
    [Test]
    public void Movement_AtRest_IsGravityAlone()
    {
        var model = new MovementModel(new KeyValues(), 1);
        Assert.That((model.IsMoving, model.IsStill), Is.EqualTo((false, true)));
        Assert.That(model.Acceleration(12.3), Is.EqualTo(new Axes(0, 0, 1)));
        Drawn drawn = Drawn.Of(new KeyValues(), 20);
        Assert.That(drawn.X.Concat(drawn.Y), Has.All.Zero);
        Assert.That(drawn.Z, Has.All.EqualTo(1));
    }

    // Sizes and frequencies alone start nothing: each source is off until its own size, or size and rate, are above 0.
    [Test]
    public void Movement_EveryOtherKnobAtItsEnd_IsStillAtRest()
    {
        var values = new KeyValues().Set(MovementKeys.AmplitudeG, 8).Set(MovementKeys.CadenceHz, 3.5).Set(MovementKeys.StepVariationPercent, 20)
            .Set(HandMovementKeys.GestureG, 4).Set(HandMovementKeys.TapG, 8).Set(HandMovementKeys.TremorHz, 3);
        Assert.That(new MovementModel(values, 1).IsStill);
    }

    [TestCase(6)]
    [TestCase(15)]
    [TestCase(40)]
    public void Breathing_Depth_IsASineOfTheMeanRate(double ratePerMin)
    {
        var model = new BreathingModel(new KeyValues().Set(BreathingKeys.RatePerMin, ratePerMin).Set(BreathingKeys.SpreadPerMin, 0), 1);
        double start = Math.Asin(model.Depth(0));
        double startFalling = Math.PI - start;
        double begin = model.Depth(0.01) > model.Depth(0) ? start : startFalling;
        for (double t = 0; t < 120; t += 0.37)
        {
            Assert.That(model.Depth(t), Is.EqualTo(Math.Sin(begin + (2 * Math.PI * ratePerMin / 60 * t))).Within(1e-7));
        }
    }
}
