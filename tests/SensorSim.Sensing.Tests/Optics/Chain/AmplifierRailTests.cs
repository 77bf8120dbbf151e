// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Scheduling;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

public sealed class AmplifierRailTests
{
    private const double Full = 2150;

    // Infrared of 1,960 to 2,000 nA and a room of 200 nA that flickers: now and then above the rail, which holds them there, flagged.
    [Test]
    public void Rail_ReachedByLedAndRoom_ClipsAndFlags()
    {
        KeyValues values = Settings.Steady().Set(AmbientKeys.LevelNa, 170).Set(AmbientKeys.FlickerPercent, 30);
        double[] free = Analog.Of(values, 60)[ChannelName.Infrared];
        Analog railed = Analog.Of(values.Set(OpticsKeys.AmplifierFullNa, Full), 60);
        Assert.That(free.Count(x => x > Full), Is.InRange(500, 5000));
        Assert.That(railed[ChannelName.Infrared], Is.EqualTo(free.Select(x => Math.Min(x, Full))));
        Assert.That(
            railed.Status(ChannelName.Infrared).Select(s => s == (ushort)SampleStatus.Saturated),
            Is.EqualTo(free.Select(x => x > Full)));
        Assert.That(railed.Status(ChannelName.Dark), Has.All.Zero);
    }

    // A dark slot does not know of the LEDs, but of the sun it does: what is subtracted then is wrong for every slot.
    [Test]
    public void Rail_ReachedByTheRoomAlone_ClipsTheDarkSlotToo()
    {
        Analog railed = Analog.Of(Settings.Fine().Set(AmbientKeys.LevelNa, 3000).Set(OpticsKeys.AmplifierFullNa, Full), 5);
        foreach (ChannelName name in new[] { ChannelName.Red, ChannelName.Dark })
        {
            Assert.That(railed[name], Has.All.EqualTo(Full));
            Assert.That(railed.Status(name), Has.All.EqualTo((ushort)SampleStatus.Saturated));
        }
    }

    // Twice the gain, half the current; at the converter the rail is the same. A longer window moves it there.
    [Test]
    public void Rail_UnderGainAndWindow_IsThatOfTheAmplifier()
    {
        KeyValues values = Settings.Steady().Set(OpticsKeys.AmplifierFullNa, Full);
        ChannelSettings gain = SlotRun.Start with { Gain = 2 };
        ChannelSettings window = SlotRun.Start with { PulseWidthUs = 150, Gain = 2 };
        Assert.That(SlotRun.Of(values, ChannelName.Red, 200, [(0, gain)]).Analog, Has.All.EqualTo(Full));
        Assert.That(SlotRun.Of(values, ChannelName.Red, 200, [(0, window)]).Analog, Has.All.EqualTo(1.5 * Full));
        Assert.That(SlotRun.Of(values, ChannelName.Red, 200, []).Status, Has.All.Zero);
    }
}
