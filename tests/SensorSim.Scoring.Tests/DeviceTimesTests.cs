// SPDX-License-Identifier: MIT
using NUnit.Framework;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Tests;

/// <summary>Products give the times that divisions give.</summary>
public sealed class DeviceTimesTests
{
    // 128 Hz: a sample lasts whole nanoseconds; 360 Hz and 7 Hz: it does not; nor does a tick of all together.
    [TestCase(250, 100)]
    [TestCase(128, 125)]
    [TestCase(360, 100)]
    [TestCase(1000, 7)]
    public void Of_AnyMark_IsWhatTheFormatSays(int ecgHz, int lightHz)
    {
        var format = new StreamFormat([TestStreams.Channel(ChannelName.Ecg, ecgHz, 0), TestStreams.Channel(ChannelName.Infrared, lightHz, 0)]);
        var times = new DeviceTimes(format);
        var random = new Random(1);
        for (int i = 0; i < 2000; i++)
        {
            long longest = i % 2 == 0 ? 1000 : 1_000_000_000;
            var mark = new Mark
            {
                Channel = i % 2,
                Kind = MarkKind.HeartRateBpm,
                Sample = random.NextInt64(-longest, longest),
                Fraction256 = (byte)random.Next(256),
                EmittedTick = random.NextInt64(-longest, longest),
                PairedChannel = random.Next(-1, 2),
                PairedSample = random.NextInt64(-longest, longest),
                PairedFraction256 = (byte)random.Next(256),
                WindowSamples = random.Next(2) * random.NextInt64(longest),
                HasValue = random.Next(2) == 0,
                ValueMilli = random.Next(),
            };
            Assert.That(times.Of(mark), Is.EqualTo(TimedMark.From(mark, format)), $"{mark}");
        }
    }
}
