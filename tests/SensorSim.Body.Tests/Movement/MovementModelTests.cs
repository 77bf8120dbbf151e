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
        Assert.That(model.IsMoving, Is.False);
        for (int axis = 0; axis < 3; axis++)
        {
            Assert.That(MovementModel.GravityG(axis), Is.EqualTo(axis == 2 ? 1 : 0));
            for (int m = 0; m < MovementModel.Multiples.Length; m++)
            {
                Assert.That((model.SineG(axis, m), model.CosineG(axis, m)), Is.EqualTo((0.0, 0.0)));
            }
        }
    }

    [TestCase(0.4)]
    [TestCase(2)]
    public void Movement_Walking_HasTheVerticalAmplitudeOfTheKnobAtTheCadence(double amplitudeG)
    {
        var model = new MovementModel(new KeyValues().Set(MovementKeys.Activity, "walking").Set(MovementKeys.AmplitudeG, amplitudeG), 1);
        int step = Array.IndexOf(MovementModel.Multiples, 2);
        Assert.That((model.SineG(2, step), model.CosineG(2, step)), Is.EqualTo((amplitudeG, 0.0)));

        // Two steps make a stride: over an hour the cadence is that of the knob.
        double steps = 2 * (model.Stride.Turns(3600) - model.Stride.Turns(0));
        Assert.That(steps / 3600, Is.EqualTo(MovementKeys.CadenceHz.Default).Within(0.01));
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
