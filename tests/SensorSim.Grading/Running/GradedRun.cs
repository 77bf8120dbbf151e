// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Grading.Running;

/// <summary>One run of a detector over a scenario, as the command makes it.</summary>
internal sealed record GradedRun
{
    /// <summary>Scores.</summary>
    public required ScoreReport Report { get; init; }

    /// <summary>How the detector behaved.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Name of the detector.</summary>
    public required string Detector { get; init; }

    /// <summary>Marks and true beats.</summary>
    public required MarkList List { get; init; }

    /// <summary>Wrong readings, in body time.</summary>
    public required IReadOnlyList<TimedMark> Wrong { get; init; }

    /// <summary>The channels and their delays.</summary>
    public required IReadOnlyList<ChannelDelay> Channels { get; init; }

    /// <summary>Makes the detector for a run; the project's own unless somebody checks this program.</summary>
    public static Func<Scenario, IDetector> NewDetector { get; set; } = _ => new LibraryDetector();

    /// <summary>Reads a scenario of the repository.</summary>
    /// <param name="folder">Folder below <c>waveforms/scenarios</c>; empty for the top.</param>
    /// <param name="name">Name of the file without its ending.</param>
    /// <param name="change">Changes its text before it is read; null to take it as it is.</param>
    public static Scenario Read(string folder, string name, Func<string, string>? change = null)
    {
        string path = Repository.PathOf("waveforms", "scenarios", folder, name + ".toml");
        return change is null ? ScenarioReader.ReadFile(path) : ScenarioReader.ReadText(change(File.ReadAllText(path)), path);
    }

    /// <summary>Runs the detector over a scenario.</summary>
    /// <param name="scenario">The scenario with its seed.</param>
    /// <param name="isKept">Which marks to keep; null for none.</param>
    /// <param name="feed">Feeds the scorer with truth of its own, before anything else; null for none.</param>
    public static GradedRun Of(Scenario scenario, Func<MarkKind, bool>? isKept = null, Action<Scorer>? feed = null) =>
        Of(scenario, NewDetector(scenario), isKept, feed);

    /// <summary>Runs any detector over a scenario; it is disposed of.</summary>
    /// <inheritdoc cref="Of(Scenario, Func{MarkKind, bool}, Action{Scorer})"/>
    public static GradedRun Of(Scenario scenario, IDetector detector, Func<MarkKind, bool>? isKept = null, Action<Scorer>? feed = null)
    {
        using (detector)
        {
            SensorStream stream = scenario.CreateStream();
            var wrong = new List<TimedMark>();
            var scorer = new Scorer(stream, Options(stream.Format)) { WrongReading = wrong.Add };
            feed?.Invoke(scorer);
            var list = new MarkList(stream, isKept ?? (_ => false));
            RunOutcome outcome = new Runner(stream, stream.Truth, detector, scorer, list).Run();
            return new GradedRun
            {
                Report = outcome.Report!,
                Verdict = outcome.Verdict,
                Detector = outcome.DetectorName,
                List = list,
                Wrong = wrong,
                Channels = [.. stream.Format.Channels.Select(c => new ChannelDelay(c.Name))],
            };
        }
    }

    // R peaks of the ECG, and feet by tangents of infrared: what the library reads where both colours are there.
    private static ScoringOptions Options(StreamFormat format) => new()
    {
        ExpectedRows =
        [
            .. format.Channels.Where(c => c.Name is ChannelName.Ecg).Select(c => new ExpectedRow(c.Name, MarkKind.RPeak)),
            .. format.Channels.Where(c => c.Name is ChannelName.Infrared).Select(c => new ExpectedRow(c.Name, MarkKind.PulseFootTangent)),
        ],
    };
}
