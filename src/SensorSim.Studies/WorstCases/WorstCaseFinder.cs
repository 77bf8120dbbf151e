// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.WorstCases;

/// <summary>Finds the worst runs of a study and makes them again, to show their signals.</summary>
public static class WorstCaseFinder
{
    /// <summary>Time shown before and after the moment of failure [s].</summary>
    public const double AroundS = 5;

    /// <summary>
    /// Runs that show how detectors fall short: requirements and detectors take turns, each with the worst run of the mildest point that fails.
    /// Of runs in which a detector did not answer one is shown at most. Runs that meet the requirement are none. Where every point meets every requirement, the weakest runs
    /// of points, see <see cref="WorstCase.IsPointMet"/>.
    /// </summary>
    /// <remarks>Each run is made twice: once to find the moment, once to keep the signals around it. The same results give the same cases.</remarks>
    /// <param name="results">Plan and rows.</param>
    /// <param name="factories">One for each detector of the study, in their order; stay the caller's.</param>
    /// <param name="most">Most runs, 0 or more.</param>
    /// <param name="cancellation">Ends the search between two blocks of a run.</param>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static IReadOnlyList<WorstCase> Find(
        StudyResults results, IReadOnlyList<IDetectorFactory> factories, int most, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(results);
        ArgumentNullException.ThrowIfNull(factories);
        ArgumentOutOfRangeException.ThrowIfNegative(most);
        if (factories.Count != results.Plan.Detectors.Count)
        {
            throw new ArgumentException("One factory for each detector.", nameof(factories));
        }

        return SideBySide.Each(WorstRuns.Of(results, most), r => MakeAgain(results.Plan, factories, r.Requirement, r.Row, cancellation) with { IsPointMet = r.IsPointMet }, cancellation);
    }

    private static WorstCase MakeAgain(
        StudyPlan plan, IReadOnlyList<IDetectorFactory> factories, RequirementOnRow requirement, RunRow row, CancellationToken cancellation)
    {
        RunKey key = plan.KeyOf(row.Run);
        var moment = new FailureMoment(requirement);
        IToldStream stream = Run(plan, factories[key.Detector], key, moment, _ => null, cancellation).Stream;
        double endS = stream.Format.Clock.Seconds(stream.EndTick);
        double momentS = Math.Min(endS, DeviceSeconds(stream, requirement.Channel, moment.BodyNs!.Value));
        double beginS = Math.Max(0, Math.Min(momentS - AroundS, endS - 1));
        (IToldStream _, FirstSeconds? capture) = Run(
            plan,
            factories[key.Detector],
            key,
            new FailureMoment(requirement),
            again => new FirstSeconds(again.Format, beginS, Math.Min(endS, Math.Max(momentS + AroundS, beginS + 1)), again.Clocks),
            cancellation);
        return new WorstCase
        {
            Requirement = requirement,
            Run = row.Run,
            Key = key,
            Figure = requirement.FigureOf(row),
            Verdict = row.Verdict,
            VerdictReason = row.VerdictReason,
            MomentS = momentS,
            What = moment.What,
            Capture = capture!,
            Unpaired =
            [
                .. moment.Unpaired.Where(e => DeviceSeconds(stream, e.Channel, e.TruthNs ?? e.DetectionNs!.Value) is double s
                    && s >= capture!.BeginSeconds && s < capture.EndSeconds),
            ],
        };
    }

    private static (IToldStream Stream, FirstSeconds? Capture) Run(
        StudyPlan plan,
        IDetectorFactory factory,
        RunKey key,
        FailureMoment moment,
        Func<IToldStream, FirstSeconds?> captureOf,
        CancellationToken cancellation)
    {
        DetectorChoice choice = plan.Detectors[key.Detector];
        IToldStream stream = RunMaker.ScenarioAt(plan, key.Point, key.Subject).WithSeed(plan.Seeds[key.Seed]).OpenStream();
        using IDetector detector = DetectorFactories.Create(factory, choice, RunMaker.ConstantsAt(plan, key.Point, key.Detector));
        var scorer = new Scorer(stream, ScoredRows.Options(stream.Format)) { EventJudged = moment.OnEvent, ReadingJudged = moment.OnReading };
        FirstSeconds? capture = captureOf(stream);
        ReadingGaps? gaps = moment.GapsOf(stream);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector, scorer, [.. new IRunSink?[] { capture, gaps }.OfType<IRunSink>()])
        {
            Loop = choice.IsLoopClosed ? new ControlLoop(stream, choice.LatencyMs) : null,
        }.Run(cancellation: cancellation);
        moment.OnEnd(outcome, gaps);
        return (stream, capture);
    }

    private static double DeviceSeconds(IToldStream stream, ChannelName channel, long bodyNs)
    {
        int index = stream.Format.IndexOf(channel);
        return index < 0 ? bodyNs * 1e-9 : (bodyNs + stream.Clocks[index].LateNs(bodyNs) + stream.Format.Channels[index].DeclaredDelayNs) * 1e-9;
    }
}
