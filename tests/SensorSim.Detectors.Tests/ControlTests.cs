// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests;

/// <summary>The two controls against a made-up sensor whose light is proportional to its LED current. Definitions of this project.</summary>
[TestFixture]
public sealed class ControlTests
{
    private const int Zero = 2000;
    private const int Top = (1 << 16) - 1;

    private static ChannelFormat Light(ChannelName name) => new()
    {
        Name = name, Device = "made_up", RateHz = 100, Bits = 16, IsSigned = false, UnitPerCode = 0.1, ZeroCode = Zero,
    };

    private static ChannelFormat Axis(ChannelName name) => new()
    {
        Name = name, Device = "made_up", RateHz = 50, Bits = 14, IsSigned = true, UnitPerCode = 0.0005,
    };

    // Codes for each mA: far too little, right at once, and far too much light.
    [TestCase(400.0)]
    [TestCase(3000.0)]
    [TestCase(50_000.0)]
    public void LightLevel_ProportionalLight_ComesIntoItsBandAndStays(double codesPerMa)
    {
        var sensor = new Sensor(new LightLevelControl(new Nothing()), codesPerMa);
        sensor.Run(30);

        double low = Zero + ((Top - Zero) * LightLevelControl.LowPercent * 0.01);
        double high = Zero + ((Top - Zero) * LightLevelControl.HighPercent * 0.01);
        Assert.That(sensor.Means(ChannelName.Red)[20..], Has.All.InRange(low, high));
        Assert.That(sensor.Means(ChannelName.Infrared)[20..], Has.All.InRange(low, high));

        // Twice or half at most for a step, two or three seconds to a step: at 400 codes/mA the way is × 8, at 50,000 a sixteenth.
        Assert.That(sensor.Requests.Count, Is.LessThan(20));
        long[] later = [.. sensor.Requests.Where(r => r.Tick > 20 * sensor.Format.Clock.TicksPerSecond).Select(r => r.Tick)];
        Assert.That(later, Is.Empty, "in its band it asks for nothing");
    }

    [Test]
    public void LightLevel_Currents_StayWithinWhatItMayAskFor()
    {
        var dim = new Sensor(new LightLevelControl(new Nothing()), 1);
        dim.Run(40);
        var blinding = new Sensor(new LightLevelControl(new Nothing()), 1e7);
        blinding.Run(40);

        Assert.That(dim.Requests[^1].Request.ValueMilli, Is.EqualTo(LightLevelControl.MostMilli));
        Assert.That(blinding.Requests[^1].Request.ValueMilli, Is.EqualTo(LightLevelControl.LeastMilli));
    }

    [Test]
    public void LightLevel_FirstCorrection_IsTheRatioOfTargetAndMean()
    {
        var sensor = new Sensor(new LightLevelControl(new Nothing()), 1500);
        sensor.Run(4);

        // 10 mA give 15,000 codes above no light; half of the 63,535 that there are needs 10 mA x 31,767.5 / 15,000, less than twice.
        // The start asks for what is there already, so the first second decides.
        (long tick, SettingsRequest request) = sensor.Requests.First(r => r.Tick > 0 && r.Request.ValueMilli != LightLevelControl.StartMilli);
        Assert.That(request.ValueMilli, Is.EqualTo(20_000));
        Assert.That(tick, Is.EqualTo(sensor.Format.Clock.TicksPerSecond + sensor.QuantumTicks));

        var near = new Sensor(new LightLevelControl(new Nothing()), 2200);
        near.Run(4);
        Assert.That(near.Requests.First(r => r.Request.ValueMilli != LightLevelControl.StartMilli).Request.ValueMilli, Is.EqualTo(10_000 * 63_535L * 50 / (100 * 22_000)).Within(1));
    }

    // Effects within the next second, across its end, and seconds later: a second before or of a change decides nothing.
    [TestCase(1)]
    [TestCase(6)]
    [TestCase(9)]
    [TestCase(15)]
    [TestCase(27)]
    public void LightLevel_LateEffect_AsksForTheSameCurrents(int delayQuanta)
    {
        var sensor = new Sensor(new LightLevelControl(new Nothing()), 1000) { DelayQuanta = delayQuanta };
        sensor.Run(20);

        // 10,000 codes above no light want twice the current at most; 20,000 of 63,535 are 31 % and want 20 x 31,767.5 / 20,000 = 31.767 mA.
        Assert.That(sensor.Requests.Where(r => r.Request.Channel == 0).Select(r => r.Request.ValueMilli), Is.EqualTo(new[] { 10_000, 20_000, 31_767 }));
    }

    [Test]
    public void Stillness_TableThenMovement_SleepsAndWakes()
    {
        // Still from 5 s to 25 s but for a knock within second 8.
        var sensor = new Sensor(new StillnessControl(new Nothing()), 3000) { Movement = t => t is < 5 or >= 25 || (t >= 8.5 && t < 8.6) ? 200 : 10 };
        sensor.Run(30);
        long second = sensor.Format.Clock.TicksPerSecond;

        // Still seconds 9 to 18 are ten; second 19 begins with the request. Second 25 moves, which is known at 26 s.
        Assert.That(
            sensor.Requests,
            Is.EqualTo(new[]
            {
                ((19 * second) + sensor.QuantumTicks, new SettingsRequest(0, SensorSetting.Decimation, 0, 0)),
                ((19 * second) + sensor.QuantumTicks, new SettingsRequest(1, SensorSetting.Decimation, 0, 0)),
                ((26 * second) + sensor.QuantumTicks, new SettingsRequest(0, SensorSetting.Decimation, 1000, 0)),
                ((26 * second) + sensor.QuantumTicks, new SettingsRequest(1, SensorSetting.Decimation, 1000, 0)),
            }));
    }

    [TestCase("light_level")]
    [TestCase("sleep_when_still")]
    [TestCase("sensor_power")]
    public void Control_Marks_AreThoseOfTheDetectorInside(string word)
    {
        using ControllingDetector detector = Controls.Around(word, new Nothing());
        var sensor = new Sensor(detector, 3000);
        sensor.Run(3);

        Assert.That(detector.Name, Is.EqualTo($"nothing with {word}"));
        Assert.That(sensor.Marks, Is.EqualTo(30), "one a block");
    }

    [TestCase("light_level")]
    [TestCase("sleep_when_still")]
    [TestCase("sensor_power")]
    public void Control_AfterWarmUp_AllocatesNothing(string word)
    {
        using ControllingDetector detector = Controls.Around(word, new Nothing());
        var sensor = new Sensor(detector, 300) { KeepsNothing = true, Movement = t => t % 25 < 5 ? 200 : 0 };
        sensor.Run(60);
        Assert.That(Allocations.Least(() => sensor.Run(120)), Is.Zero);
    }

    [Test]
    public void Around_UnknownWord_IsRefused() => Assert.That(() => Controls.Around("warp", new Nothing()), Throws.ArgumentException);

    /// <summary>Two lights, three axes; takes requests some quanta of 100 ms after the block in which they were made.</summary>
    private sealed class Sensor
    {
        private readonly ControllingDetector _detector;
        private readonly DetectorOutput _output = new();
        private readonly SampleBlock _block;
        private readonly double _codesPerMa;
        private readonly double[] _ma = [10, 10];
        private readonly ushort[] _number = new ushort[2];
        private readonly List<(ChannelName Name, long Second, int Code)> _codes = [];
        private readonly Queue<(long Tick, SettingsRequest Request)> _waiting = new(64);
        private long _tick;

        public Sensor(ControllingDetector detector, double codesPerMa)
        {
            _detector = detector;
            _codesPerMa = codesPerMa;
            Format = new StreamFormat(
                [Light(ChannelName.Red), Light(ChannelName.Infrared), Axis(ChannelName.AccelX), Axis(ChannelName.AccelY), Axis(ChannelName.AccelZ)]);
            QuantumTicks = Format.Clock.TicksPerSecond / 10;
            _block = new SampleBlock(Format, QuantumTicks);
            detector.Start(Format);
        }

        public StreamFormat Format { get; }

        public long QuantumTicks { get; }

        public bool KeepsNothing { get; init; }

        public int DelayQuanta { get; init; } = 1;

        /// <summary>Peak of the movement on the last axis [codes] at a time [s].</summary>
        public Func<double, int> Movement { get; init; } = _ => 500;

        public List<(long Tick, SettingsRequest Request)> Requests { get; } = [];

        public long Marks { get; private set; }

        public double[] Means(ChannelName name) =>
            [.. _codes.Where(c => c.Name == name).GroupBy(c => c.Second).OrderBy(g => g.Key).Select(g => g.Average(c => c.Code))];

        public void Run(int seconds)
        {
            for (int i = 0; i < seconds * 10; i++)
            {
                Change();
                Make();
                _detector.Process(_block, _output);
                Take();
            }
        }

        private void Make()
        {
            _block.Begin(_tick, _tick + QuantumTicks);
            for (int c = 0; c < Format.Channels.Count; c++)
            {
                long first = Format.FirstSampleAtOrAfter(c, _tick);
                int count = (int)(Format.FirstSampleAtOrAfter(c, _tick + QuantumTicks) - first);
                _block.Channels[c].Append(first, count, out Span<int> codes, out Span<ushort> status);
                for (int i = 0; i < count; i++)
                {
                    bool isLight = c < 2;
                    double value = isLight ? Zero + (_ma[c] * _codesPerMa) : c == 4 ? Movement((first + i) / 50.0) * (i % 2) : 0;
                    codes[i] = (int)Math.Clamp(value, isLight ? 0 : -8192, isLight ? Top : 8191);
                    status[i] = isLight ? (ushort)((_number[c] << 8) | (value > Top ? (int)SampleStatus.OverRange : 0)) : (ushort)0;
                    if (isLight && !KeepsNothing)
                    {
                        _codes.Add((Format.Channels[c].Name, (first + i) / 100, codes[i]));
                    }
                }
            }

            _tick += QuantumTicks;
        }

        private void Change()
        {
            while (_waiting.Count > 0 && _waiting.Peek().Tick <= _tick)
            {
                SettingsRequest due = _waiting.Dequeue().Request;
                if (due.Setting == SensorSetting.LedCurrentMa && _ma[due.Channel] != due.ValueMilli / 1000.0)
                {
                    _ma[due.Channel] = due.ValueMilli / 1000.0;
                    _number[due.Channel]++;
                }
            }
        }

        private void Take()
        {
            while (_output.Requests.TryTake(out SettingsRequest request))
            {
                _waiting.Enqueue((_tick + (DelayQuanta * QuantumTicks), request));
                if (!KeepsNothing)
                {
                    Requests.Add((_tick, request));
                }
            }

            Marks += _output.Marks.Count;
            _output.Marks.Clear();
        }
    }

    private sealed class Nothing : IDetector
    {
        public string Name => "nothing";

        public void Start(StreamFormat format)
        {
            // No state.
        }

        public void Process(SampleBlock block, DetectorOutput output) => output.Marks.Add(new Mark());

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
