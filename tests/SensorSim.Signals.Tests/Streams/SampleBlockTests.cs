// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Tests.Streams;

public sealed class SampleBlockTests
{
    [Test]
    public void Constructor_AnyPhase_HasRoomForEverySampleOfTheStretch()
    {
        StreamFormat format = Formats.EcgRedAccel;
        for (long length = 1; length <= 300; length++)
        {
            var block = new SampleBlock(format, length);
            for (int channel = 0; channel < 3; channel++)
            {
                for (long begin = 0; begin < 130; begin++)
                {
                    long samples = format.FirstSampleAtOrAfter(channel, begin + length) - format.FirstSampleAtOrAfter(channel, begin);
                    if (samples > block.Channels[channel].Capacity)
                    {
                        Assert.Fail($"{samples} samples of channel {channel} in {length} ticks from {begin}");
                    }
                }
            }
        }
    }

    [Test]
    public void Begin_UsedAgain_EmptiesTheChannelsAndSetsTheStretch()
    {
        var block = new SampleBlock(Formats.EcgRedAccel, 1300);
        block.Begin(0, 1300);
        block.Channels[0].Append(0, 50, out _, out _);
        block.Begin(1300, 2600);
        Assert.That((block.BeginTick, block.EndTick, block.Channels[0].Count), Is.EqualTo((1300L, 2600L, 0)));
    }

    [TestCase(10L, 9L)]
    [TestCase(0L, 1301L)]
    public void Begin_NegativeOrTooLong_IsRefused(long begin, long end)
    {
        var block = new SampleBlock(Formats.EcgRedAccel, 1300);
        Assert.That(() => block.Begin(begin, end), Throws.TypeOf<ArgumentOutOfRangeException>());
    }
}
