// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests;

/// <summary>The control that does everything, and what all controls have in common: requests do not depend on the cuts of the stream.</summary>
[TestFixture]
public sealed class SensorPowerTests
{
    private const int Seconds = 420;

    private static readonly StreamFormat s_format = new(
    [
        Light(ChannelName.Red, 100), Light(ChannelName.Infrared, 100), Light(ChannelName.Dark, 50), Axis(ChannelName.AccelX), Axis(ChannelName.AccelY), Axis(ChannelName.AccelZ),
    ]);

    // Still from 20 s on: off after a minute, on for 40 s after 260 s more. A bright room asks for less gain of all light.
    [Test]
    public void SensorPower_BrightAndStill_AsksForCurrentGainAndSleep()
    {
        List<SettingsRequest> requests = Requests("sensor_power", () => 700, red: _ => 30_000, axis: s => s < 20 ? 300 : 20, room: 20_000);

        // In an open loop nothing follows: only who asks for what is looked at.
        Assert.That(requests.Take(2).Select(r => (r.Channel, r.Setting, r.ValueMilli)), Is.EqualTo(new[] { (0, SensorSetting.LedCurrentMa, 10_000), (1, SensorSetting.LedCurrentMa, 10_000) }));
        Assert.That(
            requests.Where(r => r.Setting == SensorSetting.Decimation).Select(r => (r.Channel, r.ValueMilli)),
            Is.EqualTo(new[] { (0, 0), (1, 0), (2, 0), (0, 1000), (1, 1000), (2, 1000), (0, 0), (1, 0), (2, 0) }));
        Assert.That(requests.Where(r => r.Setting == SensorSetting.Gain).Take(3).Select(r => (r.Channel, r.ValueMilli)), Is.EqualTo(new[] { (0, 500), (1, 500), (2, 500) }));
        Assert.That(requests.Where(r => r.Setting == SensorSetting.LedCurrentMa).Select(r => r.Channel).Distinct(), Is.EquivalentTo(new[] { 0, 1 }));
    }

    [TestCase("light_level")]
    [TestCase("sleep_when_still")]
    [TestCase("sensor_power")]
    public void Control_AnyCut_AsksForTheSame(string word)
    {
        static double Red(long i) => 30_000 + (20_000 * Math.Sin(i / 3000.0));
        static int Move(int s) => s / 50 % 2 == 0 ? 300 : 20;
        List<SettingsRequest> Run(Func<long> length) => [.. Requests(word, length, Red, Move).OrderBy(r => r.Setting).ThenBy(r => r.Channel)];

        List<SettingsRequest> whole = Run(() => 100 * Seconds);
        Assert.That(whole, Has.Count.GreaterThan(5));
        var random = new Random(5100);
        Assert.That(Run(() => 1), Is.EqualTo(whole));
        Assert.That(Run(() => 17), Is.EqualTo(whole));
        Assert.That(Run(() => 100), Is.EqualTo(whole));
        Assert.That(Run(() => 1 + random.Next(900)), Is.EqualTo(whole));
    }

    // The dark channel, slower than the lit ones and with gaps of its own, must be read alike for any cut too.
    [Test]
    public void SensorPower_SilentAccelerometer_WakesTheLight()
    {
        List<SettingsRequest> requests = Requests("sensor_power", () => 10, red: _ => 30_000, axis: s => s < 100 ? 20 : -1);
        Assert.That(
            requests.Where(r => r.Setting == SensorSetting.Decimation).Select(r => (r.Channel, r.ValueMilli)),
            Is.EqualTo(new[] { (0, 0), (1, 0), (2, 0), (0, 1000), (1, 1000), (2, 1000) }));
    }

    private static ChannelFormat Light(ChannelName name, int rateHz) => new()
    {
        Name = name, Device = "made_up", RateHz = rateHz, Bits = 16, IsSigned = false, UnitPerCode = 0.1, ZeroCode = 0,
    };

    private static ChannelFormat Axis(ChannelName name) => new()
    {
        Name = name, Device = "made_up", RateHz = 20, Bits = 14, IsSigned = true, UnitPerCode = 0.0005,
    };

    // Movement in codes by the second; below 0 there are no samples. Every 7th run of 50 samples of the light is lost, on another place in each channel.
    private static List<SettingsRequest> Requests(string word, Func<long> nextLength, Func<long, double> red, Func<int, int> axis, int room = 2000)
    {
        using ControllingDetector detector = Controls.Around(word, new Nothing());
        detector.Start(s_format);
        var output = new DetectorOutput();
        long end = Seconds * s_format.Clock.TicksPerSecond;
        var block = new SampleBlock(s_format, end);
        var requests = new List<SettingsRequest>();
        for (long tick = 0; tick < end;)
        {
            long next = Math.Min(end, tick + nextLength());
            block.Begin(tick, next);
            for (int c = 0; c < s_format.Channels.Count; c++)
            {
                ChannelFormat channel = s_format.Channels[c];
                for (long i = s_format.FirstSampleAtOrAfter(c, tick); i < s_format.FirstSampleAtOrAfter(c, next); i++)
                {
                    int movement = axis((int)(i / channel.RateHz));
                    bool isLost = c < 3 ? ((i / 50) + c) % 7 == 3 : movement < 0;
                    if (!isLost)
                    {
                        block.Channels[c].Append(i, 1, out Span<int> codes, out Span<ushort> status);
                        codes[0] = c == 0 ? (int)red(i) : c == 1 ? 30_000 : c == 2 ? room + (int)(i / 50 % 9 * 100) : (int)(i % 2) * movement;
                        status[0] = 0;
                    }
                }
            }

            detector.Process(block, output);
            while (output.Requests.TryTake(out SettingsRequest request))
            {
                requests.Add(request);
            }

            Assert.That(output.Requests.OverflowCount, Is.Zero);
            tick = next;
        }

        return requests;
    }

    private sealed class Nothing : IDetector
    {
        public string Name => "nothing";

        public void Start(StreamFormat format)
        {
            // No state.
        }

        public void Process(SampleBlock block, DetectorOutput output)
        {
            // No marks.
        }

        public void Flush(DetectorOutput output)
        {
            // Nothing is held back.
        }

        public void Dispose()
        {
            // Nothing is held.
        }
    }
}
