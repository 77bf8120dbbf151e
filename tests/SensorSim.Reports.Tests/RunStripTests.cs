// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Reports.Tests;

public class RunStripTests
{
    [Test]
    public void Of_Truth_GoesToItsPlaceInDeviceTime()
    {
        FirstSeconds first = new(Format(ChannelName.Ecg, ChannelName.Red, ChannelName.Infrared), 0, 3);
        first.OnTruth(Row(ChannelName.Ecg, MarkKind.PPeak, 0.9, BeatClass.Normal));
        first.OnTruth(Row(ChannelName.Ecg, MarkKind.RPeak, 1, BeatClass.Normal));
        first.OnTruth(Row(ChannelName.Ecg, MarkKind.PPeak, 1.5, BeatClass.Blocked));
        first.OnTruth(Row(ChannelName.Ecg, MarkKind.PacingSpike, 1.9, BeatClass.Paced));
        first.OnTruth(Row(ChannelName.Ecg, MarkKind.RPeak, 2, BeatClass.Paced));
        first.OnTruth(Row(ChannelName.Red, MarkKind.PulseFootTangent, 1.2, BeatClass.Normal));
        first.OnTruth(Row(ChannelName.Infrared, MarkKind.PulseFootTangent, 1.25, BeatClass.Normal));
        first.OnTruth(Row(ChannelName.Infrared, MarkKind.PulseFootMinimum, 1.24, BeatClass.Normal));
        first.OnTruth(Row(ChannelName.Infrared, MarkKind.NoPulse, 2, BeatClass.Paced));

        StripPanel panel = RunStrip.Of(first)!;

        // The ECG is declared 10 ms late, the infrared 30 ms.
        Assert.That(panel.Beats.Select(beat => beat.Class), Is.EqualTo(new[] { BeatClass.Normal, BeatClass.Paced }));
        Assert.That(panel.Beats.Select(beat => beat.TimeS), Is.EqualTo(new[] { 1.01, 2.01 }).Within(1e-9));
        Assert.That(panel.BlockedPTimesS, Is.EqualTo(new[] { 1.51 }).Within(1e-9));
        Assert.That(panel.SpikeTimesS, Is.EqualTo(new[] { 1.91 }).Within(1e-9));
        Assert.That(panel.FootTimesS, Is.EqualTo(new[] { 1.28 }).Within(1e-9));
        Assert.That(panel.NoPulseTimesS, Is.EqualTo(new[] { 2.03 }).Within(1e-9));
        Assert.That((panel.EndS, panel.EcgMv.Length, panel.Light.Length), Is.EqualTo((3.0, 30, 30)));
        Assert.That(panel.EcgTimesS[^1], Is.EqualTo(2.9).Within(1e-12));
    }

    [Test]
    public void Of_NoInfrared_HasNoLight()
    {
        StripPanel panel = RunStrip.Of(new FirstSeconds(Format(ChannelName.Ecg, ChannelName.Red), 0, 3))!;
        Assert.That(panel.LightTimesS, Is.Empty);
        Assert.That(panel.EcgTimesS, Has.Length.EqualTo(30));
    }

    [Test]
    public void Of_NoEcg_IsNoStrip()
    {
        Assert.That(RunStrip.Of(new FirstSeconds(Format(ChannelName.Infrared), 0, 3)), Is.Null);
    }

    // Common practice; see the remarks at BeatLetters.
    [TestCase(BeatClass.None, "")]
    [TestCase(BeatClass.Normal, "N")]
    [TestCase(BeatClass.Wide, "")]
    [TestCase(BeatClass.VentricularPremature, "V")]
    [TestCase(BeatClass.AtrialPremature, "A")]
    [TestCase(BeatClass.AtrialArrhythmia, "N")]
    [TestCase(BeatClass.VentricularRun, "V")]
    [TestCase(BeatClass.JunctionalEscape, "J")]
    [TestCase(BeatClass.VentricularEscape, "V")]
    [TestCase(BeatClass.Paced, "P")]
    [TestCase(BeatClass.Blocked, "")]
    public void Letter_EveryClass_IsTheTradesOwn(BeatClass beat, string expected)
    {
        Assert.That(BeatLetters.Letter(beat), Is.EqualTo(expected));
    }

    [Test]
    public void Meaning_SomeLetters_AreExplainedOnce()
    {
        StripBeat[] beats = [new(1, BeatClass.VentricularRun), new(2, BeatClass.Wide), new(3, BeatClass.VentricularEscape), new(4, BeatClass.AtrialArrhythmia)];
        Assert.That(BeatLetters.Meaning(beats), Is.EqualTo("N normally conducted · V ventricular"));
    }

    private static StreamFormat Format(params ChannelName[] names) => new(names.Select(name => new ChannelFormat
    {
        Name = name,
        Device = "d",
        RateHz = 10,
        Bits = 12,
        IsSigned = true,
        UnitPerCode = 0.5,
        DeclaredDelayNs = name == ChannelName.Ecg ? 10_000_000 : 30_000_000,
    }));

    private static TruthEvent Row(ChannelName channel, MarkKind kind, double seconds, BeatClass label) =>
        new(channel, kind, (long)Math.Round(seconds * 1e9), double.NaN, 0, label, TruthFlags.None);
}
