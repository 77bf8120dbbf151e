// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>Light of the slot before: a run with less a run without is the share of that slot's light, which a third run shows by itself.</summary>
public sealed class CrosstalkTests
{
    private const double Share = 0.03;

    private static KeyValues Base() => Settings.Everything().Set(OpticsKeys.GreenNa, 900).Set(OpticalNoiseKeys.ShotNoise, "on");

    [TestCase(ChannelName.Infrared, ChannelName.Red)]
    [TestCase(ChannelName.Green, ChannelName.Infrared)]
    [TestCase(ChannelName.Dark, ChannelName.Green)]
    public void Crosstalk_OfASlot_IsTheShareOfTheLightBefore(ChannelName name, ChannelName before)
    {
        double[] added = Measure.Less(With(Base())[name], Analog.Of(Base(), 20)[name]);

        // The slot before by itself: no ambient light, no noise.
        KeyValues clean = Base().Set(OpticalNoiseKeys.ShotNoise, "off").Set(OpticsKeys.WhiteNoiseNaRms, 0).Set(OpticsKeys.WhiteNoiseSnrDb, 120)
            .Set(AmbientKeys.LevelNa, 0).Set(AmbientKeys.PulseWidthLampNa, 0);
        double[] light = Analog.Of(clean, 20)[before];
        Assert.That(light.Min(), Is.GreaterThan(400));

        // A ratio of 120 dB leaves a millionth of the pulse as noise: below 1e-4 nA.
        Assert.That(added, Is.EqualTo(light.Select(x => Share * x)).Within(1e-5));
    }

    [Test]
    public void Crosstalk_WithoutGreen_ReachesTheDarkSlotFromInfrared()
    {
        KeyValues values = Settings.Steady();
        double[] infrared = Analog.Of(values, 10)[ChannelName.Infrared];
        double[] dark = With(values)[ChannelName.Dark];
        Assert.That(dark, Is.EqualTo(infrared.Select(x => Share * x)).Within(1e-12));
    }

    [Test]
    public void Crosstalk_OfTheFirstSlot_IsNone() => Assert.That(With(Base())[ChannelName.Red], Is.EqualTo(Analog.Of(Base(), 20)[ChannelName.Red]));

    // Two slots on, nothing is left of it: green does not see red.
    [Test]
    public void Crosstalk_OfTheSlotBeforeTheOneBefore_IsNone() => Assert.That(
        With(Base().Set(OpticsKeys.RedNa, 100))[ChannelName.Green], Is.EqualTo(With(Base())[ChannelName.Green]));

    private static Analog With(KeyValues values) => Analog.Of(values.Copy().Set(OpticsKeys.CrosstalkPercent, 100 * Share), values.IsSet(OpticsKeys.GreenNa) ? 20 : 10);
}
