// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Scheduling;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>Noise of currents as each slot shows it: a run with less a run without. Tolerances: 4 standard errors σ/√(2n) of a Gaussian rms.</summary>
public sealed class SlotNoiseTests
{
    private const double Seconds = 300;
    private static readonly double s_error = 4 / Math.Sqrt(2 * Seconds * 100);

    private static KeyValues Clean() => Settings.Steady().Set(AmbientKeys.LevelNa, 300).Set(AmbientKeys.FlickerPercent, 0);

    // Light at the foot plus 300 nA of the room over 100 µs; I/√N with N = I T / q electrons (scipy.constants 1.10): 1800, 2300 and 300 nA.
    [TestCase(ChannelName.Red, 0.053702122315603125)]
    [TestCase(ChannelName.Infrared, 0.06070425238976261)]
    [TestCase(ChannelName.Dark, 0.021923799629626244)]
    public void ShotNoise_OfASlot_IsThatOfItsCurrent(ChannelName name, double expected)
    {
        double[] noise = Noise(Clean().Set(OpticalNoiseKeys.ShotNoise, "on"), name);
        Assert.That(Measure.Rms(noise), Is.EqualTo(expected).Within(expected * s_error));
    }

    // √(4 k T B / R): 500 kΩ, 30 °C, B = 5 kHz (scipy.constants 1.10); the same in every slot.
    [Test]
    public void ThermalNoise_OfASlot_IsThatOfItsResistor([Values(ChannelName.Red, ChannelName.Dark)] ChannelName name)
    {
        double[] noise = Noise(Clean().Set(OpticalNoiseKeys.FeedbackKohm, 500), name);
        Assert.That(Measure.Rms(noise), Is.EqualTo(0.012938991372591607).Within(100 * s_error).Percent);
    }

    // Variances add: 0.0537² + 0.0129² + 0.2² nA².
    [Test]
    public void Noise_OfEverySource_AddsInPower()
    {
        KeyValues values = Clean().Set(OpticalNoiseKeys.ShotNoise, "on").Set(OpticalNoiseKeys.FeedbackKohm, 500).Set(OpticsKeys.WhiteNoiseNaRms, 0.2);
        double expected = Math.Sqrt((0.053702122315603125 * 0.053702122315603125) + (0.012938991372591607 * 0.012938991372591607) + 0.04);
        Assert.That(Measure.Rms(Noise(values, ChannelName.Red)), Is.EqualTo(expected).Within(expected * s_error));
    }

    // One draw for all: shot noise is the white noise of another size, sample by sample, and shows in no other way.
    [Test]
    public void ShotNoise_TurnedOn_IsTheSameDrawScaled([Values(ChannelName.Red, ChannelName.Infrared, ChannelName.Dark)] ChannelName name)
    {
        double[] shot = Noise(Clean().Set(OpticalNoiseKeys.ShotNoise, "on"), name);
        double[] white = Noise(Clean().Set(OpticsKeys.WhiteNoiseNaRms, 1), name);
        double factor = Measure.Rms(shot) / Measure.Rms(white);
        Assert.That(shot.Zip(white, (s, w) => Math.Abs(s - (factor * w))).Max(), Is.LessThan(1e-10));
    }

    // A quarter of the window: N a quarter, the current's noise twice as large; at the converter, which sees a quarter of the light, half.
    [Test]
    public void ShotNoise_InAShorterWindow_GrowsWithItsRoot()
    {
        ChannelSettings quarter = SlotRun.Start with { PulseWidthUs = 25 };
        KeyValues noisy = Clean().Set(OpticalNoiseKeys.ShotNoise, "on");
        double[] whole = Less(noisy, []);
        double[] part = Less(noisy, [(0, quarter)]);
        Assert.That(Measure.Rms(part) / Measure.Rms(whole), Is.EqualTo(0.5).Within(1e-9));

        static double[] Less(KeyValues noisy, (int, ChannelSettings)[] changes) => Measure.Less(
            SlotRun.Of(noisy, ChannelName.Red, 4000, changes).Analog, SlotRun.Of(Clean(), ChannelName.Red, 4000, changes).Analog);
    }

    // Level and ambient light change, and the noise with them: from the latch on √(I) of the new current.
    [Test]
    public void ShotNoise_WhenTheLightChanges_FollowsAtTheLatch()
    {
        KeyValues noisy = Clean().Set(OpticalNoiseKeys.ShotNoise, "on")
            .SetChanges(OpticsKeys.RedNa, [new CourseChange(6.4, ChangeKind.Step, 6900, 0)], []);
        KeyValues clean = Clean().SetChanges(OpticsKeys.RedNa, [new CourseChange(6.4, ChangeKind.Step, 6900, 0)], []);
        double[] draws = Noise(Clean().Set(OpticsKeys.WhiteNoiseNaRms, 1), ChannelName.Red, 10);
        double[] noise = Measure.Less(Analog.Of(noisy, 10)[ChannelName.Red], Analog.Of(clean, 10)[ChannelName.Red]);
        for (int i = 0; i < noise.Length; i++)
        {
            double expected = (i < 640 ? 1 : 2) * 0.053702122315603125;
            Assert.That(noise[i], Is.EqualTo(expected * draws[i]).Within(1e-8), $"sample {i}");
        }
    }

    // 20 log10((A / 2√2) / rms) with the A of the level in force: twice the current is twice the noise.
    [Test]
    public void WhiteNoiseSnrDb_AtTwiceTheCurrent_KeepsItsDistance()
    {
        KeyValues one = Clean().Set(OpticsKeys.WhiteNoiseSnrDb, 30);
        KeyValues two = one.Copy().Set(OpticsKeys.RedMa, 20);
        double[] atOne = Measure.Less(Analog.Of(one, 10)[ChannelName.Red], Analog.Of(Clean(), 10)[ChannelName.Red]);
        double[] atTwo = Measure.Less(Analog.Of(two, 10)[ChannelName.Red], Analog.Of(Clean().Set(OpticsKeys.RedMa, 20), 10)[ChannelName.Red]);
        Assert.That(atTwo, Is.EqualTo(atOne.Select(x => 2 * x)).Within(1e-9));
    }

    // The gain is made by the resistor: four times the gain, half the noise current, twice the noise at the converter.
    [Test]
    public void ThermalNoise_UnderGain_GrowsWithItsRoot()
    {
        KeyValues noisy = Clean().Set(OpticalNoiseKeys.FeedbackKohm, 100);
        Assert.That(RmsWith(noisy, SlotRun.Start with { Gain = 4 }) / RmsWith(noisy, SlotRun.Start), Is.EqualTo(2).Within(1e-9));
    }

    // A at the converter: with window and gain; half the contact is half of it.
    [TestCase(50, 1, 100, 0.5)]
    [TestCase(100, 3, 50, 1.5)]
    public void WhiteNoiseSnrDb_UnderWindowGainAndContact_KeepsItsDistance(double windowUs, double gain, double contact, double expected)
    {
        KeyValues values = Clean().Set(OpticsKeys.WhiteNoiseSnrDb, 20);
        double plain = RmsWith(values, SlotRun.Start);
        Assert.That(RmsWith(values, SlotRun.Start with { PulseWidthUs = windowUs, Gain = gain }, contact) / plain, Is.EqualTo(expected).Within(1e-9));
    }

    // 80 mmHg leave 0.426 of the pulse and 1.163/1.0875 of the light (worked out in Python, see the curves): A = level (1 − e^(−H)).
    [Test]
    public void WhiteNoiseSnrDb_UnderContactPressure_FollowsThePulseThatIsLeft()
    {
        KeyValues values = Clean().Set(OpticsKeys.WhiteNoiseSnrDb, 20).Set(PulseKeys.PerfusionIndexPercent, 10);
        double height = Math.Log(1.05 / 0.95);
        double expected = 1.163265306122449 / 1.0875 * (1 - Math.Exp(-0.4264889629321117 * height)) / (1 - Math.Exp(-height));
        Assert.That(RmsAt(80) / RmsAt(0), Is.EqualTo(expected).Within(1e-3));

        double RmsAt(double mmhg) => Measure.Rms(Measure.Less(
            Analog.Of(values.Copy().Set(ContactKeys.PressureMmhg, mmhg), 10)[ChannelName.Infrared],
            Analog.Of(values.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, 120).Set(ContactKeys.PressureMmhg, mmhg), 10)[ChannelName.Infrared]));
    }

    private static double RmsWith(KeyValues noisy, ChannelSettings settings, double contact = 100) => Measure.Rms(Measure.Less(
        SlotRun.Of(noisy.Copy().Set(ContactKeys.ContactPercent, contact), ChannelName.Red, 1000, [(0, settings)]).Analog,
        SlotRun.Of(Clean().Set(ContactKeys.ContactPercent, contact), ChannelName.Red, 1000, [(0, settings)]).Analog));

    private static double[] Noise(KeyValues values, ChannelName name, double seconds = Seconds) =>
        Measure.Less(Analog.Of(values, seconds)[name], Analog.Of(Clean(), seconds)[name]);
}
