// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Tests.Streams;

public sealed class StreamFormatTests
{
    [Test]
    public void Clock_SeveralRates_IsTheirLowestCommonMultiple()
    {
        Assert.That(Formats.EcgRedAccel.Clock.TicksPerSecond, Is.EqualTo(13_000));
        Assert.That(Enumerable.Range(0, 3).Select(Formats.EcgRedAccel.TicksPerSample), Is.EqualTo(new[] { 26L, 130L, 125L }));
    }

    [Test]
    public void IndexOf_PresentAndAbsent_IsNumberOrMinusOne()
    {
        Assert.That(Formats.EcgRedAccel.IndexOf(ChannelName.AccelX), Is.EqualTo(2));
        Assert.That(Formats.EcgRedAccel.IndexOf(ChannelName.Green), Is.EqualTo(-1));
    }

    [TestCase(0, 0L, 0L)]
    [TestCase(0, 1L, 1L)]
    [TestCase(0, 26L, 1L)]
    [TestCase(0, 27L, 2L)]
    [TestCase(2, 125L * 1000, 1000L)]
    public void FirstSampleAtOrAfter_Tick_IsTheNextSample(int channel, long tick, long expected) =>
        Assert.That(Formats.EcgRedAccel.FirstSampleAtOrAfter(channel, tick), Is.EqualTo(expected));

    // By hand: (sample + fraction / 256) / rate in ns, rounded down. 1/104 s = 9,615,384.6 ns; 1/500 s / 256 = 7,812.5 ns.
    [TestCase(0, 1L, 0, 2_000_000L)]
    [TestCase(0, 0L, 1, 7_812L)]
    [TestCase(0, 0L, 255, 1_992_187L)]
    [TestCase(2, 1L, 0, 9_615_384L)]
    [TestCase(2, 104L * 86_400 * 365, 0, 31_536_000_000_000_000L)]
    [TestCase(0, -1L, 0, -2_000_000L)]
    [TestCase(0, -1L, 128, -1_000_000L)]
    public void DeviceTimeNs_SampleAndFraction_IsRoundedDown(int channel, long sample, int fraction256, long expected) =>
        Assert.That(Formats.EcgRedAccel.DeviceTimeNs(channel, sample, fraction256), Is.EqualTo(expected));

    [Test]
    public void Constructor_WrongOrder_SaysWhichChannels()
    {
        ChannelFormat[] channels = [Formats.Channel(ChannelName.Infrared, 100), Formats.Channel(ChannelName.Red, 100)];
        Assert.That(() => new StreamFormat(channels), Throws.ArgumentException.With.Message.Contains("Channel red comes after infrared"));
    }

    [Test]
    public void Constructor_RepeatedName_IsRefused() =>
        Assert.That(() => new StreamFormat([Formats.Channel(ChannelName.Red, 100), Formats.Channel(ChannelName.Red, 50)]), Throws.ArgumentException);

    [Test]
    public void Constructor_NoChannel_IsRefused() => Assert.That(() => new StreamFormat([]), Throws.ArgumentException);

    [TestCase(true, 12, -2048, 2047)]
    [TestCase(false, 12, 0, 4095)]
    [TestCase(true, 24, -8_388_608, 8_388_607)]
    [TestCase(false, 24, 0, 16_777_215)]
    public void ChannelFormat_Bits_GiveTheCodeRange(bool isSigned, int bits, int minimum, int maximum)
    {
        ChannelFormat format = Formats.Channel(ChannelName.Ecg, 500) with { IsSigned = isSigned, Bits = bits };
        Assert.That((format.MinimumCode, format.MaximumCode), Is.EqualTo((minimum, maximum)));
    }

    [Test]
    public void Physical_ZeroCodeAndPolarity_AreTakenIntoAccount()
    {
        ChannelFormat format = Formats.Channel(ChannelName.Red, 100) with { ZeroCode = 100, Polarity = -1 };
        Assert.That(format.Physical(90), Is.EqualTo(5));
        Assert.That(format.Unit, Is.EqualTo("nA"));
    }
}
