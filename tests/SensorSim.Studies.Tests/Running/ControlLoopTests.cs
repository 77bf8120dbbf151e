// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;
using SensorSim.Tests.Shared;

namespace SensorSim.Studies.Tests.Running;

/// <summary>The closed loop: when a request acts, what is logged, and that the log replays to the bit. Definitions of this project.</summary>
[TestFixture]
public sealed class ControlLoopTests
{
    private const int Ecg = 0;
    private const int Infrared = 2;

    private const string Noisy = "[ecg_amplifier]\nwhite_noise_uv_rms = 30\n[optics]\nwhite_noise_snr_db = 30\n[movement]\nactivity = \"walking\"\n";
    private const string Planned = "[[setting]]\nat_s = 3.3\nchannel = [\"ecg\", \"red\"]\nsetting = \"gain\"\nvalue = 1.5\n"
        + "[[setting]]\nat_s = 7.123\nchannel = \"infrared\"\nsetting = \"decimation\"\nvalue = 3\n";

    // Blocks of 1 s, 17 ms (as ticks of 2 ms), 100 ms, one tick, and a mixture.
    private static readonly long[][] s_cuts = [[500], [8, 9], [50], [1], [333, 1, 50, 499]];

    [TestCaseSource(nameof(s_cuts))]
    public void Run_ClosedThenItsLogOpen_IsTheSameToTheBit(params long[] cuts)
    {
        Scenario scenario = Runs.Read(30, Noisy + Planned);
        var closed = new SettingsSink();
        SensorStream stream = scenario.CreateStream();
        var loop = new ControlLoop(stream);
        var wild = new WildDetector();
        new Runner(stream, stream.Truth, wild, null, closed) { Loop = loop }.Run();
        Assert.That(loop.EffectiveCount, Is.GreaterThan(100), "the loop must do something");
        Assert.That(closed.Changes.Select(c => c.Setting).Distinct().Count(), Is.EqualTo(4));

        Scenario replay = scenario.WithSettings(new SettingsFile(closed.Changes, new ReferencedFile("settings.csv", "")));
        (string[] samples, string[] marks) = Open(replay, cuts);

        Assert.That(samples, Is.EqualTo(closed.Samples));
        Assert.That(marks, Is.Not.Empty.And.EqualTo(closed.Marks));
        Assert.That(closed.Samples, Is.Not.EqualTo(Open(scenario, [500]).Samples), "the settings must matter");
    }

    // The request stands after the quantum that ends at 1.5 s: tick 750 of 500 a second. Effect at 1.5 s + latency, on the first sample
    // of the channel at or after it: 250 and 100 Hz.
    [TestCase(100, Ecg, 400)]
    [TestCase(100, Infrared, 160)]
    [TestCase(101, Ecg, 401)]
    [TestCase(101, Infrared, 161)]
    [TestCase(250, Ecg, 438)]
    [TestCase(1234, Infrared, 274)]
    public void Run_Request_ActsAtTheStatedLatency(int latencyMs, int channel, long first)
    {
        SettingsSink sink = Ask(latencyMs, (tick, requests) => Add(requests, tick == 750, new SettingsRequest(channel, SensorSetting.Gain, 2000, 0)), out ControlLoop loop);

        Assert.That(sink.FirstWithNumber(channel, 1), Is.EqualTo(first));
        Assert.That((loop.RequestCount, loop.EffectiveCount, loop.MovedCount), Is.EqualTo((1, 1, 0)));
    }

    [Test]
    public void Run_RequestForLater_ActsThenAndOneTooEarlyIsMoved()
    {
        SettingsSink sink = Ask(
            100,
            (tick, requests) =>
            {
                Add(requests, tick == 750, new SettingsRequest(Ecg, SensorSetting.Gain, 2000, 1001));
                Add(requests, tick == 750, new SettingsRequest(Infrared, SensorSetting.Gain, 2000, 799));
            },
            out ControlLoop loop);

        Assert.That(sink.FirstWithNumber(Ecg, 1), Is.EqualTo(501));
        Assert.That(sink.FirstWithNumber(Infrared, 1), Is.EqualTo(160));
        Assert.That(loop.MovedCount, Is.EqualTo(1));
        Assert.That(
            sink.Changes,
            Is.EqualTo(new[]
            {
                new SettingChange(ChannelName.Infrared, SensorSetting.Gain, 2000, 1_600_000_000),
                new SettingChange(ChannelName.Ecg, SensorSetting.Gain, 2000, 2_002_000_000),
            }));
    }

    [Test]
    public void Run_RequestAtTheTickOfAPlannedChange_ComesAfterItThereAndInTheLog()
    {
        Scenario scenario = Runs.Read(3, "[[setting]]\nat_s = 1.6\nchannel = \"ecg\"\nsetting = \"gain\"\nvalue = 5\n");
        SettingsSink sink = Ask(scenario, 100, (tick, requests) => Add(requests, tick == 750, new SettingsRequest(Ecg, SensorSetting.Gain, 2000, 0)), out _);

        Assert.That(sink.Changes.Select(c => (c.Value, c.EffectiveNs)), Is.EqualTo(new[] { (5.0, 1_600_000_000L), (2.0, 1_600_000_000L) }));
        Scenario replay = scenario.WithSettings(new SettingsFile(sink.Changes, new ReferencedFile("settings.csv", "")));
        Assert.That(Open(replay, [500]).Samples, Is.EqualTo(sink.Samples));
        Assert.That(sink.FirstWithNumber(Ecg, 2), Is.EqualTo(400), "both at the same sample");
    }

    [Test]
    public void Run_RequestsThatCannotBe_AreClampedOrRefusedAndCounted()
    {
        SettingsSink sink = Ask(
            100,
            (tick, requests) =>
            {
                Add(requests, tick == 750, new SettingsRequest(Ecg, SensorSetting.Gain, int.MaxValue, 0));
                Add(requests, tick == 750, new SettingsRequest(Infrared, SensorSetting.LedCurrentMa, -5, 0));
                Add(requests, tick == 750, new SettingsRequest(Ecg, SensorSetting.LedCurrentMa, 5000, 0));
                Add(requests, tick == 750, new SettingsRequest(-1, SensorSetting.Gain, 5000, 0));
                Add(requests, tick == 750, new SettingsRequest(7, SensorSetting.Gain, 5000, 0));
                Add(requests, tick == 750, new SettingsRequest(Ecg, (SensorSetting)9, 5000, 0));
                Add(requests, tick == 750, new SettingsRequest(Ecg, SensorSetting.Decimation, 2500, 0));
            },
            out ControlLoop loop);

        Assert.That((loop.RequestCount, loop.ClampedCount, loop.RefusedCount, loop.EffectiveCount), Is.EqualTo((7, 2, 5, 2)));
        Assert.That(sink.Changes.Select(c => c.Value), Is.EqualTo(new[] { 1000.0, 0 }));
    }

    [Test]
    public void Run_MoreRequestsThanFit_AreCounted()
    {
        Ask(
            100,
            (tick, requests) =>
            {
                for (int i = 0; i < 100; i++)
                {
                    Add(requests, tick == 750, new SettingsRequest(Ecg, SensorSetting.Gain, 2000 + i, 0));
                }
            },
            out ControlLoop loop);

        // The detector's ring holds 64, so does the channel.
        Assert.That((loop.RequestCount, loop.OverflowCount, loop.EffectiveCount), Is.EqualTo((100, 36, 64)));

        Ask(
            60_000,
            (_, requests) =>
            {
                for (int i = 0; i < 50; i++)
                {
                    Add(requests, true, new SettingsRequest(Ecg, SensorSetting.Gain, 2000 + i, 0));
                }
            },
            out loop);

        Assert.That((loop.RequestCount, loop.OverflowCount, loop.EffectiveCount), Is.EqualTo((50 * 50, (50 * 50) - ControlLoop.Capacity, 0)));
    }

    [Test]
    public void Run_OpenLoop_IgnoresRequests()
    {
        SensorStream stream = Runs.Read(5).CreateStream();
        var sink = new SettingsSink();
        new Runner(stream, stream.Truth, new WildDetector(), null, sink).Run();

        Assert.That(sink.Changes, Is.Empty);
        Assert.That(sink.Samples, Is.EqualTo(Open(Runs.Read(5), [500]).Samples));
    }

    // 50, 12.5 and 1232.1 ticks to 100 ms.
    [TestCase("")]
    [TestCase("[ecg_amplifier]\nrate_hz = 125\n[optics]\nrate_hz = 25\n[accelerometer]\nrate_hz = 25\n")]
    [TestCase("[ecg_amplifier]\nrate_hz = 333\n[optics]\nrate_hz = 37\n[accelerometer]\nrate_hz = 37\n")]
    public void QuantumEnd_Quanta_AreTheFirstTicksAtOrAfterTenthsOfASecond(string more)
    {
        SensorStream stream = Runs.Read(60, more).CreateStream();
        var loop = new ControlLoop(stream);
        long perSecond = stream.Format.Clock.TicksPerSecond;
        long tick = 0;
        for (int n = 1; n <= 500; n++)
        {
            long end = loop.QuantumEnd(tick);
            Assert.That(end, Is.EqualTo((long)decimal.Ceiling(n * (decimal)perSecond / 10)));
            Assert.That(loop.QuantumEnd(end - 1), Is.EqualTo(end), "a start inside of a quantum ends with it");
            tick = end;
        }
    }

    [Test]
    public void Step_InAClosedLoop_AllocatesNothing()
    {
        SensorStream stream = Runs.Read(200, Planned).CreateStream();
        int value = 0;
        var detector = new TestDetector
        {
            OnProcess = (_, output) =>
            {
                value = (value + 1) % 7;
                output.Requests.Add(new SettingsRequest(Ecg, SensorSetting.Gain, 1000 + value, 0));
                output.Requests.Add(new SettingsRequest(Infrared, SensorSetting.Decimation, 1000 * value, 0));
            },
        };
        detector.Start(stream.Format);
        var loop = new ControlLoop(stream);
        var runner = new Runner(stream, stream.Truth, detector, null, new MarkCounts(stream.Format)) { Loop = loop };
        for (int i = 0; i < 600; i++)
        {
            runner.Step();
        }

        long allocated = Allocations.Least(() =>
        {
            for (int i = 0; i < 1000; i++)
            {
                runner.Step();
                stream.Acquisition.Clear();
            }
        });

        Assert.That(allocated, Is.Zero);
        Assert.That(loop.EffectiveCount, Is.GreaterThan(3000));
    }

    private static SettingsSink Ask(int latencyMs, Action<long, EventRing<SettingsRequest>> ask, out ControlLoop loop) =>
        Ask(Runs.Read(5), latencyMs, ask, out loop);

    private static SettingsSink Ask(Scenario scenario, int latencyMs, Action<long, EventRing<SettingsRequest>> ask, out ControlLoop loop)
    {
        SensorStream stream = scenario.CreateStream();
        loop = new ControlLoop(stream, latencyMs);
        var sink = new SettingsSink();
        var detector = new TestDetector { OnProcess = (block, output) => ask(block.EndTick, output.Requests) };
        new Runner(stream, stream.Truth, detector, null, sink) { Loop = loop }.Run();
        return sink;
    }

    private static void Add(EventRing<SettingsRequest> requests, bool isDue, SettingsRequest request)
    {
        if (isDue)
        {
            requests.Add(request);
        }
    }

    // Reads a stream without the runner, for cuts that it does not make.
    private static (string[] Samples, string[] Marks) Open(Scenario scenario, long[] cuts)
    {
        SensorStream stream = scenario.CreateStream();
        using var detector = new WildDetector();
        detector.Start(stream.Format);
        var output = new DetectorOutput();
        var sink = new SettingsSink();
        var block = new SampleBlock(stream.Format, cuts.Max());
        for (int i = 0; stream.PositionTick < stream.EndTick; i++)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + cuts[i % cuts.Length]));
            sink.OnBlock(block);
            detector.Process(block, output);
            Take();
        }

        detector.Flush(output);
        Take();
        return (sink.Samples, [.. sink.Marks]);

        void Take()
        {
            while (output.Marks.TryTake(out Mark mark))
            {
                sink.OnMark(mark);
            }

            output.Requests.Clear();
        }
    }

    /// <summary>Keeps samples, marks and changes as text; samples by channel, so that cuts do not show.</summary>
    private sealed class SettingsSink : IRunSink
    {
        private readonly List<(int Channel, long Index, int Code, ushort Status)> _samples = [];

        public List<SettingChange> Changes { get; } = [];

        public List<string> Marks { get; } = [];

        public string[] Samples => [.. _samples.OrderBy(s => s.Channel).Select(s => $"{s.Channel} {s.Index} {s.Code} {s.Status}")];

        public long FirstWithNumber(int channel, int number) =>
            _samples.First(s => s.Channel == channel && s.Status >> StatusWord.SettingsShift == number).Index;

        public void OnBlock(SampleBlock block)
        {
            for (int c = 0; c < block.Channels.Length; c++)
            {
                foreach (SampleRun run in block.Channels[c].Runs)
                {
                    for (int i = run.Offset; i < run.Offset + run.Count; i++)
                    {
                        _samples.Add((c, run.FirstIndex + i - run.Offset, block.Channels[c].Codes[i], block.Channels[c].Status[i]));
                    }
                }
            }
        }

        public void OnTruth(in TruthEvent truth)
        {
            // Settings do not touch it.
        }

        public void OnMark(in Mark mark) => Marks.Add(mark.ToString());

        public void OnSetting(in SettingChange change) => Changes.Add(change);
    }

    /// <summary>The library with a will of its own: requests of every sort that follow from what it has seen.</summary>
    private sealed class WildDetector : IDetector
    {
        private readonly LibraryDetector _inner = new();
        private uint _state;

        public string Name => "wild";

        public void Start(StreamFormat format)
        {
            _inner.Start(format);
            _state = 1;
        }

        public void Process(SampleBlock block, DetectorOutput output)
        {
            _inner.Process(block, output);
            foreach (int code in block.Channels[Ecg].Codes)
            {
                _state = (_state * 1664525) + 1013904223 + (uint)code;
            }

            foreach (int code in block.Channels[Infrared].Codes)
            {
                _state = (_state * 1664525) + 1013904223 + (uint)code;
            }

            for (uint n = _state >> 29; n > 0; n--)
            {
                _state = (_state * 1664525) + 1013904223;
                int channel = (int)(_state >> 8) % 9;
                var setting = (SensorSetting)(int)((_state >> 12) % 4);

                // The ECG stays whole for most of the time, so that there are beats to find.
                int milli = setting == SensorSetting.Decimation ? 1000 * (channel == Ecg ? 1 : (int)(_state >> 16) % 4) : 500 + (int)((_state >> 16) % 3000);
                long wanted = (_state >> 20) % 3 == 0 ? block.EndTick + ((_state >> 22) % 400) : 0;
                output.Requests.Add(new SettingsRequest(channel, setting, milli, wanted));
            }
        }

        public void Flush(DetectorOutput output) => _inner.Flush(output);

        public void Dispose() => _inner.Dispose();
    }
}
