// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Plans;

/// <summary>Makes the runs of a study, one after the other; each worker has its own.</summary>
public sealed class RunMaker : IDisposable
{
    private readonly StudyPlan _plan;
    private readonly IReadOnlyList<IDetectorFactory> _factories;
    private IDetector? _detector;
    private (int Point, int Detector) _detectorOf = (-1, -1);
    private Scenario? _scenario;
    private (int Point, int Subject) _scenarioOf = (-1, -1);

    /// <summary>Creates a maker.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="factories">One for each detector of the study, in their order; stay the caller's.</param>
    public RunMaker(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(factories);
        if (factories.Count != plan.Detectors.Count)
        {
            throw new ArgumentException("One factory for each detector.", nameof(factories));
        }

        _plan = plan;
        _factories = factories;
    }

    /// <summary>Told of the scorer of each run, with the number of the run, before it begins; null to tell nobody.</summary>
    public Action<Scorer, long>? ScorerMade { get; init; }

    /// <summary>Makes a run.</summary>
    /// <param name="run">Its number.</param>
    /// <param name="cancellation">Ends it between two blocks.</param>
    /// <exception cref="ScenarioException">The values of its point contradict each other or the scenario.</exception>
    /// <exception cref="NotSupportedException">The detector cannot work on its stream.</exception>
    public RunRow Make(long run, CancellationToken cancellation = default)
    {
        RunKey key = _plan.KeyOf(run);
        DetectorChoice choice = _plan.Detectors[key.Detector];
        IToldStream stream = ScenarioOf(key).WithSeed(_plan.Seeds[key.Seed]).OpenStream();
        var scorer = new Scorer(stream, ScoredRows.Options(stream.Format));
        ScorerMade?.Invoke(scorer, run);
        var runner = new Runner(stream, stream.Truth, DetectorOf(key), scorer)
        {
            Loop = choice.IsLoopClosed ? new ControlLoop(stream, choice.LatencyMs) : null,
        };
        RunOutcome outcome = runner.Run(cancellation: cancellation);
        if (outcome.Verdict != Verdict.Answered)
        {
            // Whatever state a failed detector is in, the next run gets a new one.
            DropDetector();
        }

        return RunRow.Of(run, outcome);
    }

    /// <summary>The scenario of a run but for its seed: the study's own, the values of the point, the person.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="point">Index of the point.</param>
    /// <param name="subject">Index of the person.</param>
    /// <exception cref="ScenarioException">The values contradict each other or the scenario.</exception>
    public static Scenario ScenarioAt(StudyPlan plan, int point, int subject)
    {
        ArgumentNullException.ThrowIfNull(plan);
        KeyValue[] own =
        [
            .. plan.Factors.Zip(plan.Points[point].Values).Where(p => !p.First.IsOfDetector).Select(p => ValueOf(p.First, p.Second)),
        ];
        Scenario scenario = own.Length == 0 ? plan.Scenario : plan.Scenario.With(own);
        return plan.SubjectSeeds.Count == 0 ? scenario : scenario.WithSubject(plan.SubjectSeeds[subject]);
    }

    /// <summary>The constants of a run's detector: those of the choice, then those of the point.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="point">Index of the point.</param>
    /// <param name="detector">Index of the detector.</param>
    public static IReadOnlyDictionary<string, double> ConstantsAt(StudyPlan plan, int point, int detector)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var constants = new Dictionary<string, double>(plan.Detectors[detector].Constants, StringComparer.Ordinal);
        foreach ((Factor factor, object value) in plan.Factors.Zip(plan.Points[point].Values))
        {
            if (factor.IsOfDetector)
            {
                constants[factor.Key.Name] = (double)value;
            }
        }

        return constants;
    }

    /// <inheritdoc/>
    public void Dispose() => DropDetector();

    private static KeyValue ValueOf(Factor factor, object value) => factor.Key switch
    {
        NumberKey number => new KeyValue(number, (double)value),
        ChoiceKey choice => new KeyValue(choice, (string)value),
        _ => throw new ArgumentException($"{factor.Key.Name} has neither numbers nor words and cannot be varied.", nameof(factor)),
    };

    private Scenario ScenarioOf(RunKey key)
    {
        if (_scenario is null || _scenarioOf != (key.Point, key.Subject))
        {
            _scenario = ScenarioAt(_plan, key.Point, key.Subject);
            _scenarioOf = (key.Point, key.Subject);
        }

        return _scenario;
    }

    private IDetector DetectorOf(RunKey key)
    {
        if (_detector is null || _detectorOf != (key.Point, key.Detector))
        {
            DropDetector();
            _detector = DetectorFactories.Create(_factories[key.Detector], _plan.Detectors[key.Detector], ConstantsAt(_plan, key.Point, key.Detector));
            _detectorOf = (key.Point, key.Detector);
        }

        return _detector;
    }

    private void DropDetector()
    {
        _detector?.Dispose();
        _detector = null;
        _detectorOf = (-1, -1);
    }
}
