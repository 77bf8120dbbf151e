// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Testing;

/// <summary>Runs and scores one seed, as <c>sensorsim run</c> does.</summary>
internal static class SeedRunner
{
    /// <summary>Runs a detector, or scores the answers that are there.</summary>
    /// <param name="scenario">The scenario with its seed.</param>
    /// <param name="detector">What is tested.</param>
    public static ScoredRun Run(Scenario scenario, UnderTest detector)
    {
        IToldStream stream = scenario.OpenStream();
        var scorer = new Scorer(stream, ScoredRows.Options(stream.Format));
        var notable = new NotableEvents();
        notable.ListenTo(scorer);
        RunOutcome outcome = detector.HasAnswers ? ScoreAnswers(stream, scorer, detector.AnswersOf(scenario.Seed)) : RunDetector(stream, scorer, detector);
        return new ScoredRun(scenario.Seed, outcome, notable);
    }

    private static RunOutcome RunDetector(IToldStream stream, Scorer scorer, UnderTest under)
    {
        using IDetector detector = under.Create();
        return new Runner(stream, stream.Truth, detector, scorer).Run();
    }

    private static RunOutcome ScoreAnswers(IToldStream stream, Scorer scorer, (string Name, IEnumerable<TimedMark> Marks) answers)
    {
        using var feed = new AnswerFeed(answers.Marks, scorer, stream);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector: null, scorer, feed).Run();
        if (outcome.Report!.LateCount > 0)
        {
            throw new ArgumentException($"{answers.Name}: answers lie more than 12 s out of the order of time; sort them by emitted_time_ns, or by time_ns without one.");
        }

        return outcome with
        {
            DetectorName = answers.Name,
            MarkCount = feed.Count,
            Verdict = feed.Count == 0 ? Verdict.Silent : Verdict.Answered,
            VerdictReason = feed.Count == 0 ? $"{answers.Name} holds no mark of the stream at all." : "",
        };
    }
}
