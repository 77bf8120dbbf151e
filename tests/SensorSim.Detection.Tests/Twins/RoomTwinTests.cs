// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>What fixed point costs dark subtraction.</summary>
[TestFixture]
public sealed class RoomTwinTests
{
    private const double CodeSd = 0.28868; // √(1/12)

    // Closed form. The smoothed dark has 1/64 code; rounding to an eighth of that, half up, errs by 1/16 in the mean and with (1 − 4^-3)/12, and goes
    // round a pole of 7/8: 0.5 and 0.592 units. The rounding to a code adds half a unit of mean. Together 1/64 code, taken off the light.
    [TestCase("steady", 100)]
    [TestCase("sun and shade", 100)]
    [TestCase("steady", 2000)]
    public void Light_SmoothedDark_HasTheRoundingOfTheClosedForm(string name, int lightHz)
    {
        RoomCosts costs = Of(name, lightHz);
        double pole = Math.Sqrt((1 - Math.Pow(4, -3)) / 12 / (1 - (49 / 64.0))) / 64;
        Assert.That(costs.Line, Is.Null);
        Assert.That(costs.OtherPercent, Is.Zero);
        Assert.That(costs.Smooth, Is.Not.Null);
        StageCost light = costs.Smooth!.Value;
        Assert.That(light.SignalRms, Is.GreaterThan(500));
        Assert.That(light.ErrorMean, Is.EqualTo(-1 / 64.0).Within(0.01));
        Assert.That(light.ErrorSd, Is.EqualTo(Math.Sqrt((CodeSd * CodeSd) + (pole * pole))).Within(3).Percent);

        // No rounding of the pole is larger than half a unit, and eight of them add up.
        Assert.That(light.ErrorMax, Is.LessThanOrEqualTo(0.5 + (4 / 64.0)));
    }

    // The line is rounded to a code once. Its place is a whole number of 1/256; a third of the interval is not, and the second sample of three is
    // two thirds of 1/256 off, along a line as steep as the steepest change.
    [TestCase("flicker folded to 5 Hz", 0)]
    [TestCase("the same, dark after lit", 0)]
    [TestCase("the same, one dark of four", 0)]
    [TestCase("the same, one dark of three", 2 / 3.0)]
    public void Light_Line_IsRoundedOnceAndAsFarOffAsItsPlace(string name, double placeOff)
    {
        RoomCosts costs = Of(name);
        Assert.That(costs.Smooth, Is.Null);
        Assert.That(costs.OtherPercent, Is.Zero);
        Assert.That(costs.Line, Is.Not.Null);
        StageCost light = costs.Line!.Value;
        Assert.That(light.ErrorMean, Is.EqualTo(0).Within(0.03));
        Assert.That(light.ErrorMax, Is.LessThanOrEqualTo(0.5 + (costs.SteepestCodes * placeOff / 256) + 1e-6));
        if (placeOff == 0)
        {
            Assert.That(light.ErrorSd, Is.EqualTo(CodeSd).Within(3).Percent);
        }
        else
        {
            Assert.That(light.ErrorMax, Is.GreaterThan(0.5), "the place costs something");
        }
    }

    // Means of 2^6 samples in 1/64 code: 0.5 and 1.64 units by the same closed form; rounded to a code.
    [TestCase("steady")]
    [TestCase("sun and shade")]
    [TestCase("flicker folded to 5 Hz")]
    public void AmbientAndSwing_100Hz_HaveTheRoundingOfTheClosedForm(string name)
    {
        RoomCosts costs = Of(name);
        double p = 1 - Math.ScaleB(1, -6);
        double pole = Math.Sqrt((1 - Math.Pow(4, -6)) / 12 / (1 - (p * p))) / 64;
        foreach (StageCost cost in new[] { costs.Ambient, costs.Swing })
        {
            Assert.That(cost.ErrorMean, Is.EqualTo(1 / 64.0).Within(0.012));
            Assert.That(cost.ErrorSd, Is.EqualTo(Math.Sqrt((CodeSd * CodeSd) + (pole * pole))).Within(3).Percent);
            Assert.That(cost.ErrorMax, Is.LessThan(0.5 + (6 * pole)));
        }
    }

    // A mean of 2^10 in 1/64 code moves by some three steps at 50 codes of noise, and a magnitude has an edge at 0: where the rounding's saw is cut by
    // that edge it keeps up to an eighth of a step × the edge's density, 0.8 / (50 · 64 / 1024), times 1024/64.
    [Test]
    public void Swing_2000Hz_ReadsHighByNoMoreThanTheEdgeMakes()
    {
        StageCost swing = Of("steady", 2000).Swing;
        double most = 0.8 / (50 * 64 / 1024.0) / 8 * 1024 / 64;
        Assert.That(swing.ErrorMean, Is.InRange(-0.05, most + (1 / 64.0)));
        Assert.That(swing.ErrorMax, Is.LessThan(0.5 + most + 0.5));
    }

    // The means that decide are true to a quarter of a code (half a unit, 32 times), of some 60: where line and smoothed dark serve alike they
    // change places at other samples now and then.
    [Test]
    public void Choice_WhereBothServeAlike_IsTheTwinsButForAFewSamples()
    {
        int mixed = 0;
        double other = 0;
        for (int flicker = 60; flicker <= 140; flicker += 10)
        {
            RoomCosts costs = RoomCosts.Of(new RoomScene("flicker", 100, 100, 13) { FlickerCodes = flicker, FlickerHz = 5 }, 200);
            mixed += costs.Smooth is not null && costs.Line is not null ? 1 : 0;
            other += costs.OtherPercent / 9;
        }

        Assert.That(mixed, Is.Positive, "both are chosen in one record");
        Assert.That(other, Is.LessThan(1));
    }

    private static RoomCosts Of(string name, int lightHz = 0) =>
        RoomCosts.Of(RoomScene.All.First(s => s.Name == name && (lightHz == 0 || s.LightHz == lightHz)), lightHz > 1000 ? 30 : 120);
}
