// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Delivery;

/// <summary>What a device's radio does is the same for every channel, whoever asks first and how far apart they are.</summary>
public sealed class PacketRadioTests
{
    // Channels that lie up to 30 times sixteen packets apart push each other's answers out of what is kept.
    [TestCase(0)]
    [TestCase(1)]
    [TestCase(30)]
    public void Of_AskedByTwoChannelsApart_IsWhatOneFindsByItself(int apart)
    {
        const int Count = 2000;
        PacketRadio.Sixteen[] alone = Walk(Radio(), Count);
        Assert.That(alone.Count(s => s.IsBadAfter), Is.GreaterThan(100));
        Assert.That(alone.Count(s => s.Late != 0), Is.GreaterThan(100));

        PacketRadio shared = Radio();
        bool isFirstBad = false;
        bool isSecondBad = false;
        for (int i = 0; i < Count + apart; i++)
        {
            if (i < Count)
            {
                PacketRadio.Sixteen first = shared.Of(i, isFirstBad);
                isFirstBad = first.IsBadAfter;
                Assert.That(first, Is.EqualTo(alone[i]), $"first channel, {i}");
            }

            if (i >= apart)
            {
                PacketRadio.Sixteen second = shared.Of(i - apart, isSecondBad);
                isSecondBad = second.IsBadAfter;
                Assert.That(second, Is.EqualTo(alone[i - apart]), $"second channel, {i - apart}");
            }
        }

        Assert.That(Walk(shared.Copy(), 100), Is.EqualTo(alone[..100]), "a copy from the begin");
    }

    private static PacketRadio Radio() => new(
        new KeyValues().Set(DataPathKeys.First.PacketLossPercent, 20).Set(DataPathKeys.First.PacketDelayMs, 40).Set(DataPathKeys.First.LateMs, 60), 7, DataPathKeys.First);

    private static PacketRadio.Sixteen[] Walk(PacketRadio radio, int count)
    {
        var all = new PacketRadio.Sixteen[count];
        bool isBad = false;
        for (int i = 0; i < count; i++)
        {
            all[i] = radio.Of(i, isBad);
            isBad = all[i].IsBadAfter;
        }

        return all;
    }
}
