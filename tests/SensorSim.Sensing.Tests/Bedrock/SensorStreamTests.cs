// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

public sealed class SensorStreamTests
{
    [Test]
    public void Format_OfTheDefaults_HasSevenChannelsOnOneClock()
    {
        StreamFormat format = new SensorStream(new KeyValues(), 1, 1).Format;
        Assert.That(format.Channels.Select(c => c.Name.Text()), Is.EqualTo(
            new[] { "ecg", "red", "infrared", "dark", "accel_x", "accel_y", "accel_z" }));
        Assert.That(format.Channels.Select(c => c.RateHz), Is.EqualTo(new[] { 250, 100, 100, 100, 50, 50, 50 }));
        Assert.That(format.Channels.Select(c => c.Unit), Is.EqualTo(new[] { "mV", "nA", "nA", "nA", "g", "g", "g" }));
        Assert.That(format.Clock.TicksPerSecond, Is.EqualTo(500));
    }

    [Test]
    public void Read_ToTheEnd_GivesRateTimesDurationSamples()
    {
        Recording recording = Recording.Of(new KeyValues(), 12);
        Assert.That(
            recording.Format.Channels.Select(c => recording.Codes(c.Name).Length),
            Is.EqualTo(new[] { 3000, 1200, 1200, 1200, 600, 600, 600 }));
    }

    [Test]
    public void Read_BackwardsOrBeyondTheEndOrTooMuch_IsRefusedAndChangesNothing()
    {
        var stream = new SensorStream(Settings.Everything(), 7, 10);
        var block = new SampleBlock(stream.Format, 1000);
        Recording head = Recording.OfPart(stream, 700);
        Assert.That(() => stream.Read(block, 699), Throws.TypeOf<ArgumentOutOfRangeException>());
        Assert.That(() => stream.Read(block, 5001), Throws.TypeOf<ArgumentOutOfRangeException>());
        Assert.That(() => stream.Read(block, 1701), Throws.TypeOf<ArgumentOutOfRangeException>());
        Assert.That(stream.PositionTick, Is.EqualTo(700));
        head.Then(Recording.OfRest(stream, 1000)).AssertSameAs(Recording.Of(Settings.Everything(), 10), "after refused reads");
    }

    [Test]
    public void Read_NoTicks_GivesAnEmptyBlock()
    {
        var stream = new SensorStream(new KeyValues(), 7, 10);
        var block = new SampleBlock(stream.Format, 1000);
        stream.Read(block, 500);
        stream.Read(block, 500);
        Assert.That((block.BeginTick, block.EndTick), Is.EqualTo((500, 500)));
        Assert.That(block.Channels[0].Count, Is.Zero);
    }

    [Test]
    public void Truth_AfterARead_IsCompleteUpToThePosition()
    {
        Recording whole = Recording.Of(Settings.Everything(), 60);
        var stream = new SensorStream(Settings.Everything(), 7, 60);
        Recording part = Recording.OfPart(stream, 15_000);
        Assert.That(part.TruthText(30), Is.EqualTo(whole.TruthText(30)));
    }

    [TestCase(0)]
    [TestCase(-1)]
    [TestCase(double.NegativeInfinity)]
    public void SensorStream_DurationOfNothing_IsRefused(double seconds) =>
        Assert.That(() => new SensorStream(new KeyValues(), 1, seconds), Throws.TypeOf<ArgumentOutOfRangeException>());

    [Test]
    public void SensorStream_WithoutEnd_HasTheLastTickAsItsEnd() =>
        Assert.That(new SensorStream(new KeyValues(), 1, double.PositiveInfinity).EndTick, Is.EqualTo(long.MaxValue));
}
