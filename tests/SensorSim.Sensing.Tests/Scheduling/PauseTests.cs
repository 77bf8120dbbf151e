// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Scheduling;

/// <summary>A channel that is off for a while goes on afterwards as if it had never been off, and nothing is told of what was never sent.</summary>
[TestFixture]
public sealed class PauseTests
{
    private const long OffNs = 10_000_000_000;
    private const long OnNs = 50_000_000_000;

    // A mean delay of 50 ms: a third of all packets of 5 ms come later than 50 ms.
    [TestCase(true)]
    [TestCase(false)]
    public void Off_WithLatePackets_TellsNoneOfThem(bool comesBack)
    {
        KeyValues values = new KeyValues().Set(DataPathKeys.First.PacketMs, 5).Set(DataPathKeys.First.PacketDelayMs, 50).Set(DataPathKeys.First.LateMs, 50);
        AcquisitionEvent[] late = [.. Given.Of(values, 60, Pause(ChannelName.Ecg, comesBack)).Events
            .Where(e => e.Channel == ChannelName.Ecg && e.Kind == AcquisitionKind.LatePacket)];
        Assert.That(late.Count(e => e.BeginNs < OffNs), Is.GreaterThan(100));
        Assert.That(late.Count(e => e.BeginNs >= OffNs && e.BeginNs < OnNs), Is.Zero);
        Assert.That(late.Any(e => e.BeginNs >= OnNs), Is.EqualTo(comesBack));
    }

    // One sample in a hundred repeats the one before: three of three hundred first samples after a pause repeat one of the pause.
    [Test]
    public void On_AfterAPause_GivesTheCodesOfAStreamWithoutOne()
    {
        KeyValues values = new KeyValues().Set(DataPathKeys.First.RepeatedSamplesPerMillion, 10_000).Set(DataPathKeys.First.LostSamplesPerMillion, 10_000);
        Dictionary<long, int> without = Given.Of(values, 6)[ChannelName.Ecg].ToDictionary(s => s.Index, s => s.Code);
        for (int first = 500; first < 800; first++)
        {
            SettingChange[] pause = [Row(ChannelName.Ecg, 0, 1_000_000_000), Row(ChannelName.Ecg, 1000, first * 4_000_000L)];
            (long Index, int Code, ushort Status)[] after = [.. Given.Of(values, 6, pause)[ChannelName.Ecg].Where(s => s.Index >= first)];
            Assert.That(after, Has.Length.GreaterThan(650));
            Assert.That(after.Where(s => without[s.Index] != s.Code), Is.Empty, $"on at {first}");
        }
    }

    [Test]
    public void LevelControl_AfterAPauseOfALightInTheBand_ChangesNothing()
    {
        KeyValues values = new KeyValues().Set(LevelControlKeys.LevelControl, "on").Set(OpticsKeys.SettlingMs, 20);
        SettingChange[] pause = [.. Pause(ChannelName.Red, true), .. Pause(ChannelName.Infrared, true)];
        Assert.That(
            Given.Of(values, 60, pause).Events.Where(e => e.Kind == AcquisitionKind.Setting && e.Setting == SensorSetting.LedCurrentMa),
            Is.Empty);
    }

    private static SettingChange[] Pause(ChannelName channel, bool comesBack) =>
        comesBack ? [Row(channel, 0, OffNs), Row(channel, 1000, OnNs)] : [Row(channel, 0, OffNs)];

    private static SettingChange Row(ChannelName channel, int milli, long ns) => new(channel, SensorSetting.Decimation, milli, ns);
}
