// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detectors.Tests.Robustness;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>The C twin gives the answers of the C# library: every field of every answer, for every stream.</summary>
[TestFixture]
public sealed class TwinTests
{
    private const int ScenarioS = 60;

    private static readonly DetectorCalibration s_onePoint = new()
    {
        Pressure = new PressureCurve("logarithmic", [new CuffMeasurement(215, 120, 80)]),
        Trend = new TrendSearch(),
        TimeOfDayH = 10,
        Oxygen = [new OxygenPair(0.4, 100), new OxygenPair(0.9, 88.5), new OxygenPair(2.5, 41)],
    };

    private static readonly DetectorCalibration s_twoPoint = new()
    {
        Pressure = new PressureCurve("pulse_pressure", [new CuffMeasurement(230, 115, 76) { RateBpm = 61, SpreadMs = 4 }, new CuffMeasurement(205, 131, 84) { RateBpm = 74, AgeDays = 3 }])
        {
            SystolicMmhgPerBpm = 0.2,
            DiastolicMmhgPerBpm = 0.1,
            ReachMmhg = 30,
        },
        Trend = new TrendSearch { FalseAlarmDays = 100, LearningDays = 7, RestMarginBpm = 15 },
        TimeOfDayH = 23.9,
    };

    private static readonly Dictionary<string, double> s_constants = new(StringComparer.Ordinal)
    {
        ["detector.beat_refractory_ms"] = 260,
        ["detector.beat_t_wave_ms"] = 420,
        ["detector.beat_threshold_percent"] = 80,
        ["detector.pulse_refractory_ms"] = 310,
        ["detector.pulse_threshold_percent"] = 130,
        ["detector.gate_shut_ms"] = 1500,
        ["detector.ecg_gate_faults"] = 5,
        ["detector.light_gate_faults"] = 1,
        ["detector.gate_doubt"] = 2,
    };

    private static readonly TwinOptions[] s_options =
    [
        new(), new(s_onePoint), new(s_twoPoint, s_constants), new(null, s_constants),
    ];

    private TwinLibrary _twin = null!;

    private static IEnumerable<string> Scenarios => Directory.EnumerateFiles(Path.Combine(CCompiler.Root, "waveforms", "scenarios"), "*.toml", SearchOption.AllDirectories)
        .Select(path => Path.GetRelativePath(CCompiler.Root, path).Replace('\\', '/')).Order(StringComparer.Ordinal);

    [OneTimeSetUp]
    public void Build() => _twin = new TwinLibrary(TwinBuild.Make("gcc", "libtwin.so", "-O2", "-shared", "-fPIC"));

    [OneTimeTearDown]
    public void Unload() => _twin.Dispose();

    [TestCaseSource(nameof(Scenarios))]
    public void Answers_OfScenario_AreTheSame(string path)
    {
        SensorStream stream = ScenarioReader.ReadFile(Path.Combine(CCompiler.Root, path)).CreateStream();
        TwinOptions options = s_options[path.Length % s_options.Length];
        var both = new Both(stream.Format, options, _twin);
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second);
        for (int i = 0; i < ScenarioS && stream.PositionTick < stream.EndTick; i++)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + second));
            Assert.That(both.Take(block), Is.Null);
        }

        Assert.That(both.Flush(), Is.Null);
        Assert.That(both.Count, Is.GreaterThan(0).Or.EqualTo(both.IsRefused ? 0 : -1));
        TestContext.Out.WriteLine($"{both.Count} answers");
    }

    [Test]
    public void Answers_OfHostileStream_AreTheSame([Range(1, 60)] int seed) => Hostile(seed, 90, 0);

    [Test]
    public void Answers_AfterHoursOfSilence_AreTheSame([Values(9001, 9002)] int seed) => Hostile(seed, 2 * 3600, 3600);

    [Test]
    [Category("Slow")]
    public void Answers_OfManyHostileStreams_AreTheSame()
    {
        for (int seed = 10_000; seed < 11_000; seed++)
        {
            Hostile(seed, seed % 50 == 0 ? 4 * 3600 : 240, seed % 50 == 0 ? 3 * 3600 : 0);
        }
    }

    private void Hostile(int seed, int durationS, int silenceS)
    {
        var stream = new HostileStream(seed, durationS, silenceS);
        var both = new Both(stream.Format, s_options[seed % s_options.Length], _twin);
        if (both.IsRefused)
        {
            return;
        }

        var random = new Random(seed);
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second + 1);
        for (long tick = 0; tick < stream.EndTick;)
        {
            long begin = tick;
            tick = Math.Min(stream.EndTick, tick + 1 + (long)(second * Math.Pow(random.NextDouble(), 4)));
            stream.Fill(block, begin, tick);
            if (both.Take(block) is string difference)
            {
                Assert.Fail($"seed {seed}: {difference}");
            }
        }

        Assert.That(both.Flush(), Is.Null, $"seed {seed}");
    }
}

/// <summary>Takes away what the tests built.</summary>
[SetUpFixture]
public sealed class CleanUp
{
    [OneTimeTearDown]
    public void Remove() => TwinBuild.Remove();
}
