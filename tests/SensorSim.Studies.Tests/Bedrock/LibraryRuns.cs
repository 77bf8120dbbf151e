// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.Control;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Bedrock;

/// <summary>Runs of the complete library over generated signals, in blocks of any length.</summary>
internal static class LibraryRuns
{
    private static string Root { get; } = FindRoot();

    /// <summary>A shipped scenario with another length and seed, so that nothing here rests on a stream that is graded.</summary>
    public static Scenario Shipped(string name, int seconds, int seed)
    {
        string folder = Path.Combine(Root, "waveforms", "scenarios");
        string text = File.ReadAllText(Path.Combine(folder, name + ".toml"));
        text = System.Text.RegularExpressions.Regex.Replace(text, "(?m)^duration_s = .*$", FormattableString.Invariant($"duration_s = {seconds}"));
        text = System.Text.RegularExpressions.Regex.Replace(text, "(?m)^seed = .*$", FormattableString.Invariant($"seed = {seed}"));
        return ScenarioReader.ReadText(text, Path.Combine(folder, name + ".toml"));
    }

    /// <summary>Marks and requests of a run.</summary>
    /// <param name="scenario">What to run.</param>
    /// <param name="blockTicks">Ticks of a block.</param>
    /// <param name="control">A control round the library, whose requests nobody answers; null: none.</param>
    public static (StreamFormat Format, List<Mark> Marks, List<SettingsRequest> Requests) Run(Scenario scenario, long blockTicks, string? control = null)
    {
        SensorStream stream = scenario.CreateStream();
        using IDetector detector = control is null ? new LibraryDetector() : Controls.Around(control, new LibraryDetector());
        detector.Start(stream.Format);
        var output = new DetectorOutput(1 << 16, 1 << 12);
        var block = new SampleBlock(stream.Format, Math.Max(1, blockTicks));
        var marks = new List<Mark>();
        var requests = new List<SettingsRequest>();
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + blockTicks));
            detector.Process(block, output);
            Take(output, marks, requests);
            while (stream.Truth.TryTake(out _) || stream.Acquisition.TryTake(out _))
            {
                // Nobody asks; but the rings are finite.
            }
        }

        detector.Flush(output);
        Take(output, marks, requests);
        Assert.That(output.Marks.OverflowCount, Is.Zero);
        return (stream.Format, marks, requests);
    }

    private static void Take(DetectorOutput output, List<Mark> marks, List<SettingsRequest> requests)
    {
        while (output.Marks.TryTake(out Mark mark))
        {
            marks.Add(mark);
        }

        while (output.Requests.TryTake(out SettingsRequest request))
        {
            requests.Add(request);
        }
    }

    private static string FindRoot()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "SensorSim.sln")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new InvalidOperationException("The repository was not found above the tests.");
    }
}
