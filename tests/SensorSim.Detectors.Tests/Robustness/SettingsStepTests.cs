// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.Robustness;

/// <summary>A light whose settings change with every sample spoils its own pulses and nothing else.</summary>
[TestFixture]
public sealed class SettingsStepTests
{
    [Test]
    public void Process_SettingsChangeWithEverySample_CadenceIsStillTold()
    {
        int calm = Cadences(isStepping: false);
        Assert.That(calm, Is.GreaterThan(15));
        Assert.That(Cadences(isStepping: true), Is.EqualTo(calm));
    }

    private static int Cadences(bool isStepping)
    {
        var format = new StreamFormat(
        [
            StreamMaker.Channel(ChannelName.Infrared, 400),
            StreamMaker.Channel(ChannelName.AccelX, 25),
            StreamMaker.Channel(ChannelName.AccelY, 25),
            StreamMaker.Channel(ChannelName.AccelZ, 25),
        ]);
        using var detector = new LibraryDetector();
        detector.Start(format);
        var output = new DetectorOutput();
        var block = new SampleBlock(format, format.Clock.TicksPerSecond);
        int cadences = 0;
        for (int second = 0; second < 60; second++)
        {
            block.Begin(second * format.Clock.TicksPerSecond, (second + 1) * format.Clock.TicksPerSecond);
            for (int channel = 0; channel < 4; channel++)
            {
                int rate = format.Channels[channel].RateHz;
                block.Channels[channel].Append(second * rate, rate, out Span<int> codes, out Span<ushort> status);
                for (int i = 0; i < rate; i++)
                {
                    // 114 steps a minute, 0.3 g, on 1 g.
                    double t = second + ((double)i / rate);
                    codes[i] = channel == 0 ? 50_000 : channel == 3 ? 1000 + (int)(300 * Math.Sin(2 * Math.PI * 1.9 * t)) : 0;
                    status[i] = channel == 0 && isStepping ? (ushort)((i & 255) << 8) : (ushort)0;
                }
            }

            detector.Process(block, output);
            while (output.Marks.TryTake(out Mark mark))
            {
                cadences += mark.Kind == MarkKind.CadencePerMin ? 1 : 0;
            }
        }

        return cadences;
    }
}
