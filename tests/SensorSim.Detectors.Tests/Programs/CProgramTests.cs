// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.CLibraries;
using SensorSim.Detectors.Programs;
using SensorSim.Links.Lines;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Boards;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests.Programs;

/// <summary>The session of a board in C (<c>src/firmware/session</c>) as a program: the worked example, and the library in C.</summary>
[TestFixture]
public sealed class CProgramTests
{
    private const double LongestS = 60;

    private static readonly Dictionary<string, double> s_none = [];
    private static readonly DetectorCalibration s_calibration = new()
    {
        TimeOfDayH = 7.25,
        Oxygen = [new(0.4, 100), new(0.9, 91.5), new(1.7, 71)],
        Pressure = new PressureCurve("logarithmic", [
            new CuffMeasurement(231.4, 121, 79) { SpreadMs = 3.2, RateBpm = 64, AgeDays = 1.5 },
            new CuffMeasurement(205.5, 142, 88) { SpreadMs = 2.1, RateBpm = 88, AgeDays = 1.25 }])
        {
            SystolicMmhgPerBpm = 0.11,
            ReachMmhg = 60,
        },
        Trend = new TrendSearch { FalseAlarmDays = 200, LearningDays = 10, RestMarginBpm = 15 },
    };

    private string _folder = "";

    [OneTimeSetUp]
    public void Build()
    {
        _folder = Directory.CreateTempSubdirectory("c-programs-").FullName;
        CCompiler.Run("make", "-s", "-C", Path.Combine(CCompiler.Root, "docs", "examples", "process", "c"), $"BUILD={_folder}", "CC=gcc", "CFLAGS=-O1");
    }

    [OneTimeTearDown]
    public void Clean() => Directory.Delete(_folder, recursive: true);

    // The same algorithm in the shape of a session and in that of a C library; neither knows how the stream is cut.
    [Test]
    public void Run_WorkedExample_GivesTheMarksOfTheExampleLibrary()
    {
        var stream = new StreamMaker(30, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));
        stream.Lose(0, 2000, 300);
        using var library = new CLibraryFactory(CCompiler.Library(CCompiler.Example, Path.Combine(_folder, "threshold.so")));
        using IDetector expected = library.Create(s_none);
        using var program = new ProcessFactory([Path.Combine(_folder, "threshold")]);
        using IDetector actual = program.Create(s_none);
        List<Mark> marks = Run(expected, stream, 250);

        Assert.That(marks, Has.Count.GreaterThan(20));
        Assert.That(Run(actual, stream, 250), Is.EqualTo(marks));
        Assert.That(Run(actual, stream, 77), Is.EqualTo(marks));
    }

    // All that there is at once, movement, sun; the library in C over session and pipes, told of a cuff, an oxygen table and a time of day.
    [TestCase("rest-finger.toml")]
    [TestCase("walking-wrist.toml")]
    [TestCase("all-on.toml")]
    [TestCase("walk-in-the-sun.toml")]
    public void Run_LibraryInC_GivesTheMarksOfTheLibraryInAllFields(string file)
    {
        using var library = new LibraryDetector(s_calibration);
        using var program = new ProcessFactory([Path.Combine(_folder, "library")], calibration: s_calibration);
        using IDetector detector = program.Create(s_none);
        List<Mark> expected = Run(library, file);
        List<Mark> actual = Run(detector, file);

        Assert.That(expected, Is.Not.Empty);
        Assert.That(actual, Is.EqualTo(expected));
    }

    // Each constant away from its usual value: other marks than with the usual ones, and the same as the library's here.
    [Test]
    public void Run_LibraryInCWithOtherConstants_GivesTheMarksOfTheLibrary()
    {
        Dictionary<string, double> constants = LibraryConstants.All.ToDictionary(k => k.Name, k => Math.Round((k.Default + k.Maximum) / 2));
        using var usual = new LibraryDetector();
        using var library = new LibraryDetector(null, constants);
        using Process process = Process.Start(new ProcessStartInfo(Path.Combine(_folder, "library")) { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        using (var link = new StreamLink(process.StandardOutput.BaseStream, process.StandardInput.BaseStream, "library in C"))
        using (var detector = new BoardDetector(link, new BoardOptions { Constants = constants }))
        {
            List<Mark> expected = Run(library, "noisy-room.toml");

            Assert.That(expected, Is.Not.EqualTo(Run(usual, "noisy-room.toml")));
            Assert.That(Run(detector, "noisy-room.toml"), Is.EqualTo(expected));
        }

        Assert.That(process.WaitForExit(10_000), Is.True, "the program ends when its input does");
        Assert.That(process.ExitCode, Is.Zero);
    }

    // A stream that the library cannot work on is refused with its own sentence, and the next one is served.
    [Test]
    public void Start_RateThatTheLibraryDoesNotTake_IsRefusedWithItsReason()
    {
        using var program = new ProcessFactory([Path.Combine(_folder, "library")]);
        using IDetector detector = program.Create(s_none);
        var slow = new StreamMaker(5, StreamMaker.Channel(ChannelName.Ecg, 50));
        Assert.That(
            () => Run(detector, slow, 50),
            Throws.TypeOf<NotSupportedException>().With.Message.Contains("the rate of ecg is one that the library does not take: from 100 to"));
        var good = new StreamMaker(5, StreamMaker.Channel(ChannelName.Ecg, 250));
        Assert.That(Run(detector, good, 250), Is.Not.Empty);
    }

    private static List<Mark> Run(IDetector detector, StreamMaker stream, long length) =>
        BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => length).Marks;

    private static List<Mark> Run(IDetector detector, string file)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(CCompiler.Root, "waveforms", "scenarios", file));
        SensorStream stream = scenario.CreateStream();
        long second = stream.Format.Clock.TicksPerSecond;
        return BoardRuns.Run(detector, stream.Format, Fill, Math.Min(stream.EndTick, (long)(LongestS * second)), () => second).Marks;

        void Fill(SampleBlock block, long begin, long until)
        {
            stream.Read(block, until);
            while (stream.Truth.TryTake(out _))
            {
            }

            while (stream.Acquisition.TryTake(out _))
            {
            }
        }
    }
}
