// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

public sealed class DarkSlotTests
{
    // The converter has no codes below 0 and no offset: in the dark, half of the noise is lost, and flagged.
    [Test]
    public void Dark_NoiseWithoutRoomBelowZero_IsCutAndFlagged()
    {
        Recording recording = Recording.Of(Settings.Fine().Set(OpticsKeys.ZeroPercent, 0).Set(OpticsKeys.WhiteNoiseNaRms, 3), 600);
        double[] dark = recording.Physical(ChannelName.Dark);
        double n = dark.Length;
        Assert.That(dark.Min(), Is.Zero);

        // Positive part of a Gaussian: mean σ/√(2π), variance σ² (1/2 − 1/2π) (textbook).
        double error = 4 * 3 * Math.Sqrt((0.5 - (0.5 / Math.PI)) / n);
        Assert.That(dark.Average(), Is.EqualTo(3 / Math.Sqrt(2 * Math.PI)).Within(error));
        double flagged = recording.Status(ChannelName.Dark).Count(s => s == (ushort)SampleStatus.OverRange) / n;
        Assert.That(flagged, Is.EqualTo(0.5).Within(4 * 0.5 / Math.Sqrt(n)));
    }

    [Test]
    public void Dark_NoiseAboveTheZeroCode_IsWhole()
    {
        // One percent of the full scale lies below zero: many times the noise.
        Recording recording = Recording.Of(Settings.Fine().Set(OpticsKeys.WhiteNoiseNaRms, 3), 600);
        double[] dark = recording.Physical(ChannelName.Dark);
        Assert.That(dark.Average(), Is.EqualTo(0).Within(4 * 3 / Math.Sqrt(dark.Length)));
        Assert.That(recording.Status(ChannelName.Dark), Has.All.Zero);
    }

    [Test]
    public void Dark_NoAmbientLightNoNoise_IsTheZeroCodeWithoutFlag()
    {
        // 18 bits, 1 %: floor(262144 × 0.01).
        Recording recording = Recording.Of(new KeyValues(), 20);
        Assert.That(recording.Codes(ChannelName.Dark), Has.All.EqualTo(2621));
        Assert.That(recording.Status(ChannelName.Dark), Has.All.Zero);
    }

    [Test]
    public void Dark_OfTheBody_KnowsNothing()
    {
        KeyValues values = new KeyValues().Set(AmbientKeys.LevelNa, 100);
        Assert.That(
            Recording.Of(values.Copy().Set(Body.Pulse.PulseKeys.PerfusionIndexPercent, 20), 20).Codes(ChannelName.Dark),
            Is.EqualTo(Recording.Of(values, 20).Codes(ChannelName.Dark)));
    }
}
