// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Where in time the slots lie, and what the declared delay says about it: a definition of this project.</summary>
public sealed class SlotTests
{
    // With one sample period between slots, equal light and equal absorbance, infrared sample n is red sample n + 1, to the code.
    [Test]
    public void Infrared_OnePeriodAfterRed_IsTheNextRedSample()
    {
        KeyValues values = Settings.Fine().Set(OpticsKeys.RateHz, 500).Set(OpticsKeys.SlotSpacingUs, 2000)
            .Set(PulseKeys.RatioOfRatios, 1).Set(OpticsKeys.RedNa, 2000).Set(OpticsKeys.InfraredNa, 2000)
            .Set(AmbientKeys.LevelNa, 300);
        Recording recording = Recording.Of(values, 60);
        AssertSame(recording.Codes(ChannelName.Infrared)[..^1], recording.Codes(ChannelName.Red)[1..]);
    }

    [Test]
    public void Dark_OnePeriodAfterInfrared_IsTheNextSampleOfTheSameAmbientLight()
    {
        KeyValues values = Settings.Silent().Set(OpticsKeys.RateHz, 500).Set(OpticsKeys.SlotSpacingUs, 2000)
            .Set(AmbientKeys.LevelNa, 300).Set(AmbientKeys.PulseWidthLampNa, 100);
        Recording recording = Recording.Of(values, 60);
        AssertSame(recording.Codes(ChannelName.Dark)[..^1], recording.Codes(ChannelName.Infrared)[1..]);
        AssertSame(recording.Codes(ChannelName.Dark)[..^2], recording.Codes(ChannelName.Red)[2..]);
    }

    // A slot that samples later shows everything early in device time, hence the minus sign.
    [Test]
    public void DeclaredDelayNs_OfEachSlot_IsMinusItsOffset()
    {
        Recording recording = Recording.Of(new KeyValues().Set(OpticsKeys.SlotSpacingUs, 437.5), 1);
        Assert.That(recording.Format.Channels.Select(c => c.DeclaredDelayNs), Is.EqualTo(new long[] { 0, 0, -437_500, -875_000, 0, 0, 0 }));
    }

    // Truth + declared delay = device time of what the codes show; spacing 3 ms, so a wrong sign would be off by 6 ms.
    [Test]
    public void DeclaredDelayNs_AddedToTruth_IsWhereTheCodesTurn(
        [Values(ChannelName.Red, ChannelName.Infrared)] ChannelName name, [Values(MarkKind.PulseFootMinimum, MarkKind.SystolicPeak)] MarkKind kind)
    {
        KeyValues values = Settings.Fine().Set(OpticsKeys.RateHz, 1000).Set(OpticsKeys.SlotSpacingUs, 3000)
            .Set(PulseKeys.RespiratoryBaselinePercent, 0).Set(PulseKeys.PerfusionIndexPercent, 10);
        Recording recording = Recording.Of(values, 60);
        double[] absorbance = [.. recording.Physical(name).Select(v => -Math.Log(v))];
        double delay = recording.Channel(name).DeclaredDelayNs * 1e-9;
        double[] errors =
        [
            .. recording.TruthSeconds(name, kind).Where(t => t > 0.5 && t < 59)
                .Select(t => Measure.ExtremumSeconds(absorbance, 1000, t + delay, 0.012) - (t + delay)),
        ];
        Assert.That(errors, Has.Length.GreaterThan(55));

        // Truth is within 10 µs; the rest is the rounding of the codes at a flat extremum.
        Assert.That(errors, Has.All.EqualTo(0).Within(30e-6));
    }

    // Off a whole number of codes for the rounding of two paths that differ in the last bits.
    private static void AssertSame(int[] actual, int[] expected) =>
        Assert.That(actual.Zip(expected, (a, b) => Math.Abs(a - b)).Max(), Is.LessThanOrEqualTo(1));
}
