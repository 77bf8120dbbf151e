// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>
/// One knob changes one source by one factor: what a knob adds at one level is k times what it adds at another, sample by sample,
/// while everything else is on. Rounding moves each of the three runs by at most half a code.
/// </summary>
public sealed class OneKnobTests
{
    private const double Seconds = 20;

    private static readonly ChannelName[] s_light = [ChannelName.Red, ChannelName.Infrared, ChannelName.Dark];
    private static readonly ChannelName[] s_axes = [ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ];

    private static IEnumerable<TestCaseData> AddingKnobs()
    {
        yield return Case(EcgAmplifierKeys.WhiteNoiseUvRms, 5, 40, [ChannelName.Ecg]);
        yield return Case(EcgAmplifierKeys.BaselineWanderMvRms, 0.05, 0.4, [ChannelName.Ecg]);
        yield return Case(EcgAmplifierKeys.BreathingBaselineMv, 0.1, 0.3, [ChannelName.Ecg]);
        yield return Case(EcgAmplifierKeys.MainsUvPp, 40, 1000, [ChannelName.Ecg]);
        yield return Case(EcgAmplifierKeys.MainsSecondPercent, 10, 50, [ChannelName.Ecg]);
        yield return Case(EcgAmplifierKeys.MainsThirdPercent, 10, 200, [ChannelName.Ecg]);
        
        // Not from 0: without ambient light the lower rail cuts half of the dark slot's noise.
        yield return Case(AmbientKeys.LevelNa, 150, 900, s_light, 100);
        
        yield return Case(AmbientKeys.FlickerPercent, 5, 35, s_light);
        yield return Case(AmbientKeys.LevelLux, 500, 3000, s_light);
        yield return Case(AmbientKeys.NaPerLux, 0.2, 1, s_light, values => values.Set(AmbientKeys.LevelLux, 800));
        yield return Case(AmbientKeys.FlickerSecondPercent, 20, 80, s_light, values => values.Set(AmbientKeys.FlickerPercent, 40));
        yield return Case(AmbientKeys.FlickerThirdPercent, 20, 80, s_light, values => values.Set(AmbientKeys.FlickerPercent, 40));
        yield return Case(AmbientChangeKeys.DaylightLux, 500, 1500, s_light, Room);
        yield return Case(AmbientChangeKeys.DaylightNaPerLux, 0.2, 0.9, s_light, Room);
        yield return Case(AmbientChangeKeys.ShadeDepthPercent, 20, 90, s_light, Room);
        yield return Case(AmbientKeys.PulseWidthLampNa, 20, 100, s_light);
        yield return Case(AccelerometerKeys.NoiseUgPerRthz, 1000, 8000, s_axes);
    }

    [TestCaseSource(nameof(AddingKnobs))]
    public void Knob_AtTwoLevels_AddsTheSameSignalScaled(NumberKey key, double none, double low, double high, ChannelName[] channels, Action<KeyValues>? with)
    {
        KeyValues values = Settings.Fine(Settings.Everything());
        with?.Invoke(values);
        Recording off = Recording.Of(values.Copy().Set(key, none), Seconds);
        Recording atLow = Recording.Of(values.Copy().Set(key, low), Seconds);
        Recording atHigh = Recording.Of(values.Copy().Set(key, high), Seconds);
        AssertScaled(off, atLow, atHigh, (high - none) / (low - none), channels);
    }

    [Test]
    public void WhiteNoiseNaRms_AtTwoLevels_AddsTheSameSignalScaled()
    {
        KeyValues values = Settings.Fine().Set(AmbientKeys.LevelNa, 300);
        Recording off = Recording.Of(values, Seconds);
        Recording atLow = Recording.Of(values.Copy().Set(OpticsKeys.WhiteNoiseNaRms, 1), Seconds);
        Recording atHigh = Recording.Of(values.Copy().Set(OpticsKeys.WhiteNoiseNaRms, 7), Seconds);
        AssertScaled(off, atLow, atHigh, 7, s_light);
    }

    [Test]
    public void WhiteNoiseSnrDb_TwentyDecibelsLess_AddsTenTimesTheSameSignal()
    {
        KeyValues values = Settings.Fine().Set(AmbientKeys.LevelNa, 300);
        Recording off = Recording.Of(values, Seconds);
        Recording atLow = Recording.Of(values.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, 20), Seconds);
        Recording atHigh = Recording.Of(values.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, 0), Seconds);
        AssertScaled(off, atLow, atHigh, 10, [ChannelName.Red, ChannelName.Infrared]);
    }

    // The artefact multiplies light: it adds in the logarithm.
    [Test]
    public void MovementArtefactRatio_AtTwoLevels_AddsTheSameAbsorbanceScaled()
    {
        KeyValues values = Settings.Fine().Set(MovementKeys.Activity, "walking");
        double[] off = Light(values, 0);
        double[] low = Light(values, 0.5);
        double[] high = Light(values, 6);
        for (int i = 0; i < off.Length; i++)
        {
            // Light of at least 1,000 nA in steps of 0.00024 nA: half a step is 1.2e-7 of the logarithm.
            Assert.That(Math.Log(off[i] / high[i]), Is.EqualTo(12 * Math.Log(off[i] / low[i])).Within(4e-6), $"sample {i}");
        }
    }

    [Test]
    public void MovementArtefactRatio_AtRest_ChangesNothing() =>
        Recording.Of(new KeyValues().Set(OpticsKeys.MovementArtefactRatio, 5), 10)
            .AssertSameAs(Recording.Of(new KeyValues(), 10), "artefact at rest");

    private static void Room(KeyValues values) => values.Set(AmbientChangeKeys.DaylightLux, 1000).Set(AmbientChangeKeys.ShadePerMin, 30)
        .Set(AmbientChangeKeys.ShadeRampS, 0.7).Set(AmbientChangeKeys.HandPerMin, 10).Set(AmbientChangeKeys.LampSwitchPerMin, 10);

    private static TestCaseData Case(NumberKey key, double low, double high, ChannelName[] channels, Action<KeyValues> with) =>
        new TestCaseData(key, 0.0, low, high, channels, with).SetArgDisplayNames(key.Name);

    private static TestCaseData Case(NumberKey key, double low, double high, ChannelName[] channels, double none = 0) =>
        new TestCaseData(key, none, low, high, channels, (Action<KeyValues>?)null).SetArgDisplayNames(key.Name);

    private static double[] Light(KeyValues values, double ratio) =>
        Recording.Of(values.Copy().Set(OpticsKeys.MovementArtefactRatio, ratio), Seconds).Physical(ChannelName.Infrared);

    private static void AssertScaled(Recording off, Recording atLow, Recording atHigh, double factor, ChannelName[] channels)
    {
        foreach (ChannelFormat channel in off.Format.Channels)
        {
            int[] none = off.Codes(channel.Name);
            int[] low = atLow.Codes(channel.Name);
            int[] high = atHigh.Codes(channel.Name);
            string name = channel.Name.Text();
            if (!channels.Contains(channel.Name))
            {
                Assert.That(low, Is.EqualTo(none), $"{name} is none of the knob's business");
                Assert.That(high, Is.EqualTo(none), $"{name} is none of the knob's business");
                continue;
            }

            Assert.That(atHigh.Status(channel.Name), Has.All.Zero, $"{name} must not be clipped for this test");
            double worst = none.Select((n, i) => Math.Abs(high[i] - n - (factor * (low[i] - n)))).Max();
            double size = Math.Sqrt(none.Select((n, i) => Math.Pow(low[i] - n, 2)).Average());
            Assert.That(worst, Is.LessThanOrEqualTo(1 + factor), $"{name} [codes]");
            Assert.That(size, Is.GreaterThan(20 * (1 + factor)), $"{name}: the difference must be far above rounding [codes]");
        }

        Assert.That(atHigh.TruthText(Seconds), Is.EqualTo(off.TruthText(Seconds)));
    }
}
