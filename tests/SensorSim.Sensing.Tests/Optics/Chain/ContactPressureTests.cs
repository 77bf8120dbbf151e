// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

public sealed class ContactPressureTests
{
    // Published: the best pulse at 35 to 48 mmHg (Sensors 21:8421, 2021), on the finger between 20 to 30 mmHg and diastolic
    // (Sirkia, Biomed Eng Adv 7:100123, 2024); none above the systolic pressure (textbook).
    [Test]
    public void PulseFactor_OverPressure_IsABellWithItsTopAtTheBestPressure()
    {
        double[] factors = [.. Enumerable.Range(1, 250).Select(p => ContactPressure.PulseFactor(p))];
        int top = 1 + Array.IndexOf(factors, factors.Max());
        Assert.That(top, Is.EqualTo(35));
        Assert.That(factors[top - 1], Is.EqualTo(1).Within(1e-15));
        Assert.That(factors[..(top - 1)], Is.Ordered.Ascending);
        Assert.That(factors[top..], Is.Ordered.Descending);
        Assert.That(factors[139..], Has.All.Zero);
        Assert.That(factors[119], Is.LessThan(0.03));
    }

    // u (1 − u)³ over (1/4)(3/4)³, and 1 + u (2 − u)/5 over 1.0875, u = p/140: worked out in Python.
    [TestCase(5, 0.3036234902124115, 1.0140306122448979)]
    [TestCase(20, 0.8529779258642234, 1.0530612244897959)]
    [TestCase(35, 1, 1.0875)]
    [TestCase(80, 0.4264889629321117, 1.163265306122449)]
    [TestCase(200, 0, 1.2)]
    public void Light_UnderPressure_HasThePulseAndLevelOfTheCurves(double mmhg, double pulse, double level)
    {
        Assert.That(ContactPressure.PulseFactor(mmhg), Is.EqualTo(pulse).Within(1e-12));
        KeyValues values = Settings.Steady().Set(PulseKeys.PerfusionIndexPercent, 4).Set(OpticsKeys.RateHz, 500).Set(OpticsKeys.SlotSpacingUs, 250);
        double[] free = Analog.Of(values, 24)[ChannelName.Infrared];
        double[] pressed = Analog.Of(values.Copy().Set(ContactKeys.PressureMmhg, mmhg), 24)[ChannelName.Infrared];

        // The steady foot has no absorbance: what is left of the pulse scales every logarithm above it.
        double[] expected = [.. free.Select(x => 2000 * level / 1.0875 * Math.Exp(pulse * Math.Log(x / 2000)))];
        Assert.That(pressed, Is.EqualTo(expected).Within(1e-4));
    }

    [Test]
    public void Pressure_OfNothing_IsNotModelled()
    {
        Assert.That((ContactPressure.PulseFactor(0), ContactPressure.LightFactor(0)), Is.EqualTo((1.0, 1.0)));
        Recording.Of(Settings.Everything().Set(ContactKeys.PressureMmhg, 0), 10).AssertSameAs(Recording.Of(Settings.Everything(), 10), "0 mmHg");
    }
}
