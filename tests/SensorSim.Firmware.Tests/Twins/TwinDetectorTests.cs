// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.CLibraries;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>The twin behind the contract for detectors in C gives the marks of the C# library, millivolts included.</summary>
[TestFixture]
public sealed class TwinDetectorTests
{
    private CLibrary _library = null!;

    [OneTimeSetUp]
    public void Build()
    {
        string output = Path.Combine(TwinBuild.Folder, "libsensorsim_twin.so");
        string source = Path.Combine(TwinBuild.Firmware, "detector", "sensorsim_twin.c");
        CCompiler.Run(
            "gcc",
            [
                .. TwinBuild.Strict, .. TwinBuild.Includes, "-I", Path.GetDirectoryName(CCompiler.Example)!, "-O2", "-shared", "-fPIC", "-fvisibility=hidden", "-o", output,
                source, .. TwinBuild.Objects("gcc", "-O2", "-fPIC"), "-lm",
            ]);
        _library = new CLibrary(output);
    }

    [TestCase("waveforms/scenarios/all-on.toml", false)]
    [TestCase("waveforms/scenarios/rest-finger.toml", true)]
    [TestCase("waveforms/scenarios/walking-wrist.toml", false)]
    [TestCase("waveforms/scenarios/walk-in-the-sun.toml", true)]
    public void Marks_OfScenario_AreTheSame(string scenario, bool hasConstants)
    {
        IReadOnlyDictionary<string, double> constants = hasConstants ? TwinCases.Constants : new Dictionary<string, double>(StringComparer.Ordinal);
        using var ours = new LibraryDetector(null, constants);
        using var twin = new CLibraryDetector(_library, constants, isArithmeticWatched: false);
        List<Mark> expected = Run(ours, scenario);
        Assert.That(expected, Is.Not.Empty);
        Assert.That(Run(twin, scenario), Is.EqualTo(expected));
    }

    // Reports and recordings name what answered: its version is that of the library which it is to the bit.
    [Test]
    public void Name_OfTwin_IsThatOfTheLibrary()
    {
        using var ours = new LibraryDetector();
        Assert.That(_library.Name, Is.EqualTo($"{ours.Name} in C"));
    }

    [Test]
    public void Constants_OfTwin_AreThoseOfTheLibrary() => Assert.That(
        _library.Constants.Select(key => (key.Name, key.Unit, key.Meaning, key.Minimum, key.Maximum, key.Default, key.IsWhole)),
        Is.EqualTo(Detectors.Choices.LibraryConstants.All.Select(key => (key.Name, key.Unit, key.Meaning, key.Minimum, key.Maximum, key.Default, key.IsWhole))));

    [TestCase(50)]
    [TestCase(2000)]
    public void Start_RateThatDoesNotSuit_IsRefusedInTheSameWords(int rateHz)
    {
        var format = new StreamFormat([new ChannelFormat { Name = ChannelName.Ecg, Device = "made_up", RateHz = rateHz, Bits = 16, IsSigned = true, UnitPerCode = 0.001, Polarity = 1 }]);
        using var ours = new LibraryDetector();
        using var twin = new CLibraryDetector(_library, new Dictionary<string, double>(StringComparer.Ordinal), isArithmeticWatched: false);
        string expected = Assert.Throws<NotSupportedException>(() => ours.Start(format))!.Message;
        Assert.That(Assert.Throws<NotSupportedException>(() => twin.Start(format))!.Message, Does.Contain(expected));
    }

    private static List<Mark> Run(IDetector detector, string scenario)
    {
        SensorStream stream = ScenarioReader.ReadFile(Path.Combine(CCompiler.Root, scenario)).CreateStream();
        detector.Start(stream.Format);
        var output = new DetectorOutput();
        long second = stream.Format.Clock.TicksPerSecond;
        var block = new SampleBlock(stream.Format, second);
        var marks = new List<Mark>();
        for (int i = 0; i < 60 && stream.PositionTick < stream.EndTick; i++)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + second));
            detector.Process(block, output);
            Take(output, marks);
        }

        detector.Flush(output);
        Take(output, marks);
        return marks;
    }

    private static void Take(DetectorOutput output, List<Mark> marks)
    {
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
        }
    }
}
