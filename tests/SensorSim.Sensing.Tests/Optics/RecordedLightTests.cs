// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Recorded noise in the light: level, ratio, where it goes; the loop itself is tested with the ECG's.</summary>
public sealed class RecordedLightTests
{
    // Sine of 2.5 Hz over whole periods, seam included: the rms of the file is the stated one.
    private static KeyValues Clean() => Settings.Steady().Set(AmbientKeys.LevelNa, 100).Set(AmbientKeys.FlickerPercent, 0)
        .Attach(RecordedLightKeys.File, new NoiseRecording([.. Enumerable.Range(0, 8000).Select(i => Math.Sin(2 * Math.PI * 2.5 * i / 200))], 200));

    private static double[] Added(KeyValues with, ChannelName name) =>
        Measure.Less(Recording.Of(with, 78).Physical(name), Recording.Of(Clean(), 78).Physical(name));

    [TestCase(ChannelName.Red)]
    [TestCase(ChannelName.Infrared)]
    public void NaRms_OverTwoLoops_IsAsStated(ChannelName name) =>
        Assert.That(Measure.Rms(Added(Clean().Set(RecordedLightKeys.NaRms, 4), name)), Is.EqualTo(4).Within(0.02));

    [Test]
    public void NaRms_InTheDarkSlot_IsNone() =>
        Assert.That(Added(Clean().Set(RecordedLightKeys.NaRms, 4), ChannelName.Dark), Has.All.Zero);

    // 20 log10((A / 2√2) / rms), A the light from foot to peak: at 20 dB the rms is A / 28.28.
    [Test]
    public void SnrDb_OfALight_IsTheRatioToItsPulse()
    {
        double[] clean = Recording.Of(Clean(), 20).Physical(ChannelName.Infrared);
        double footToPeak = clean[200..].Max() - clean[200..].Min();
        double rms = Measure.Rms(Added(Clean().Set(RecordedLightKeys.SnrDb, 20), ChannelName.Infrared));
        Assert.That(rms, Is.EqualTo(footToPeak / (20 * Math.Sqrt(2))).Within(0.01 * rms));
    }

    // One recording for all: two slots 250 µs apart see it 250 µs apart, which at 2.5 Hz is 0.23 degrees.
    [Test]
    public void NaRms_OfTwoSlots_IsTheSameAtTheirOwnInstants()
    {
        KeyValues with = Clean().Set(RecordedLightKeys.NaRms, 4);
        double[] red = Added(with, ChannelName.Red)[1000..3000];
        double[] infrared = Added(with, ChannelName.Infrared)[1000..3000];
        double phase = (Measure.Line(infrared, 2.5, 100) / Measure.Line(red, 2.5, 100)).Phase;
        Assert.That(phase, Is.EqualTo(2 * Math.PI * 2.5 * 250e-6).Within(4e-4));
    }
}
