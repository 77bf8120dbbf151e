// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Acquisition;

/// <summary>A whole stream tells the stretches that its own status words call for, whatever the cuts and whatever the sensor shows.</summary>
public sealed class StreamWatchTests
{
    private const double Seconds = 270;

    private static readonly Recording s_whole = Recording.Of(Clipping(), Seconds);

    private static readonly string[] s_expected =
    [
        .. s_whole.Format.Channels.SelectMany(c => WatchOracle.Text(c.Name, c.RateHz, s_whole.Status(c.Name))),
    ];

    // Wander of the ECG that leaves the range for seconds; a slow lamp does the same to the light.
    private static KeyValues Clipping() => Settings.Everything()
        .Set(EcgAmplifierKeys.FullScaleMv, 2)
        .Set(EcgAmplifierKeys.BaselineWanderMvRms, 1.5)
        .Set(AmbientKeys.LevelNa, 2000)
        .Set(OpticsKeys.FullScaleNa, 4000)
        .Set(OpticsKeys.MovementArtefactRatio, 10);

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(65536)]
    public void Acquisition_Blocks_TellWhatTheStatusWordsSay(long ticks)
    {
        Assert.That(s_expected.Count(l => l.StartsWith("Ecg UnusableSaturated", StringComparison.Ordinal)), Is.GreaterThan(10));
        Assert.That(s_expected.Count(l => l.StartsWith("Infrared", StringComparison.Ordinal)), Is.GreaterThan(10));
        Assert.That(Stretches.OfRest(new SensorStream(Clipping(), 7, Seconds), ticks).Text, Is.EqualTo(s_expected));
    }

    [Test]
    public void Copy_InTheMiddle_TellsTheRest()
    {
        var stream = new SensorStream(Clipping(), 7, Seconds);
        var block = new SampleBlock(stream.Format, 40_001);
        stream.Read(block, 40_001);
        SensorStream copy = stream.Copy();
        Assert.That(copy.Acquisition.Count, Is.EqualTo(stream.Acquisition.Count).And.GreaterThan(5));
        Assert.That(Stretches.OfRest(copy, 999).Text, Is.EqualTo(s_expected));
        Assert.That(Stretches.OfRest(stream, 4096).Text, Is.EqualTo(s_expected), "the original");
    }

    [Test]
    public void Acquisition_Defaults_TellNothing() =>
        Assert.That(Stretches.OfRest(new SensorStream(Settings.Everything(), 7, 60), 500).Text, Is.Empty);

    // Every channel at fault all the time, a minute unread: the promise of the ring.
    [Test]
    public void Acquisition_AMinuteOfFaultsInOneRead_FindsRoom()
    {
        KeyValues values = Clipping()
            .Set(OpticsKeys.GreenNa, 800).Set(EcgAmplifierKeys.FullScaleMv, EcgAmplifierKeys.FullScaleMv.Minimum)
            .Set(EcgAmplifierKeys.MainsUvPp, 5000).Set(AccelerometerKeys.NoiseUgPerRthz, AccelerometerKeys.NoiseUgPerRthz.Maximum);
        var stream = new SensorStream(values, 7, 60);
        stream.Read(new SampleBlock(stream.Format, stream.EndTick), stream.EndTick);
        Assert.That(stream.Acquisition.OverflowCount, Is.Zero);
        Assert.That(stream.Acquisition.Count, Is.GreaterThan(60));
    }

    [TestCase("all", 0xFFFF)]
    [TestCase("none", 0)]
    [TestCase("range", 0xFF00 | 8 | 16)]
    [TestCase("contact", 0xFF00 | 1 | 2 | 4 | 128)]
    [TestCase("contact_and_range", 0xFF00 | 1 | 2 | 4 | 128 | 8 | 16)]
    public void Flags_Choice_HidesTheOthersAndNothingElse(string choice, int given)
    {
        KeyValues values = Clipping().Set(DeviceKeys.First.Flags, choice);
        Recording shown = Recording.Of(values, Seconds);
        foreach (ChannelFormat channel in s_whole.Format.Channels)
        {
            Assert.That(shown.Codes(channel.Name), Is.EqualTo(s_whole.Codes(channel.Name)));
            Assert.That(
                shown.Status(channel.Name), Is.EqualTo(s_whole.Status(channel.Name).Select(s => (ushort)(s & given))), channel.Name.Text());
        }

        Assert.That(Stretches.OfRest(new SensorStream(values, 7, Seconds), 777).Text, Is.EqualTo(s_expected), "what is hidden is still known");
    }

    [Test]
    public void Flags_OfTheSecondDevice_AreThoseOfItsChannels()
    {
        KeyValues values = Clipping().Set(DeviceKeys.SecondCarries, "ecg").Set(DeviceKeys.Second.Flags, "none");
        Recording shown = Recording.Of(values, 60);
        Assert.That(shown.Status(ChannelName.Ecg), Has.All.Zero);
        Assert.That(shown.Status(ChannelName.Infrared), Has.Some.Not.Zero);
    }

    [Test]
    public void Read_FaultsAfterWarmUp_AllocatesNothing()
    {
        var stream = new SensorStream(Clipping().Set(DeviceKeys.First.Flags, "contact"), 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, 500);
        long told = 0;
        Advance(30);
        told = 0;
        Assert.That(Allocations.Least(() => Advance(600)), Is.Zero);
        Assert.That(told, Is.GreaterThan(100));

        void Advance(int blocks)
        {
            for (int i = 0; i < blocks; i++)
            {
                stream.Read(block, stream.PositionTick + 500);
                while (stream.Acquisition.TryTake(out _))
                {
                    told++;
                }

                while (stream.Truth.TryTake(out _))
                {
                }
            }
        }
    }
}
