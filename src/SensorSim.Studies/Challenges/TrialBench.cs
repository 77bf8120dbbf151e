// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Challenges;

/// <summary>Tries inputs on a detector, several at a time; what it says of an input depends on that input only.</summary>
internal sealed class TrialBench : IDisposable
{
    private static readonly Dictionary<string, double> s_noConstants = new(StringComparer.Ordinal);

    private readonly Scenario _scenario;
    private readonly IDetectorFactory _factory;
    private readonly ChallengeSettings _settings;
    private readonly CancellationToken _cancellation;
    private readonly Action<long>? _progress;
    private readonly System.Collections.Concurrent.ConcurrentBag<IDetector> _detectors = [];
    private readonly Dictionary<int, Trial> _alone = [];

    public TrialBench(
        Scenario scenario, IDetectorFactory factory, ChallengeSettings settings, Action<long>? progress, CancellationToken cancellation)
    {
        _scenario = scenario;
        _factory = factory;
        _settings = settings;
        _progress = progress;
        _cancellation = cancellation;
    }

    /// <summary>The scenario that the challenge began with.</summary>
    public Scenario Scenario => _scenario;

    /// <summary>The mildest input of one knob alone that broke something at the full length, whatever stage tried it; null when none did.</summary>
    /// <param name="knob">Place of the knob.</param>
    public Trial? MildestAlone(int knob) => _alone.GetValueOrDefault(knob);

    /// <summary>Runs made so far.</summary>
    public long RunCount { get; private set; }

    /// <summary>Inputs tried so far, the contradictory ones too.</summary>
    public long InputCount { get; private set; }

    /// <summary>Inputs that contradict themselves or the scenario.</summary>
    public long ContradictionCount { get; private set; }

    /// <summary>The harshest input that held.</summary>
    public ChallengeInput? HarshestHeld { get; private set; }

    /// <summary>Tries inputs.</summary>
    /// <param name="inputs">The inputs.</param>
    /// <param name="target">The requirement that must break; null: any.</param>
    /// <param name="isOnAll">Whether every check seed is run, also those that can change nothing any more.</param>
    /// <returns>One trial for each, in their order.</returns>
    public IReadOnlyList<Trial> Try(IReadOnlyList<ChallengeInput> inputs, Breach? target = null, bool isOnAll = false)
    {
        var trials = new Trial[inputs.Count];
        var options = new ParallelOptions { MaxDegreeOfParallelism = _settings.Workers, CancellationToken = _cancellation };
        try
        {
            Parallel.For(0, inputs.Count, options, i => trials[i] = TryOne(inputs[i], target, isOnAll));
        }
        catch (AggregateException e)
        {
            // A detector that cannot work on such a stream says so for every input; one sentence is enough.
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }

        foreach (Trial trial in trials)
        {
            InputCount++;
            RunCount += trial.RunCount;
            ContradictionCount += trial.State == TrialState.Contradictory ? 1 : 0;
            bool isFull = trial.Input.DurationS == _scenario.DurationS;
            if (isFull && trial.IsBroken && trial.Input.Disturbances.Count == 1)
            {
                NoteAlone(trial);
            }

            if (isFull && trial.State == TrialState.Held && trial.Input.Harshness > (HarshestHeld?.Harshness ?? -1))
            {
                HarshestHeld = trial.Input;
            }
        }

        _progress?.Invoke(RunCount);
        return trials;
    }

    /// <summary>Makes one run and tells everything of it.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="watch">Sets what the scorer tells; may be null.</param>
    /// <param name="sinks">Makes the sinks for the stream; may be null.</param>
    public (RunOutcome Outcome, IReadOnlyList<Breach> Breaches) Run(
        Scenario scenario, Action<Scorer>? watch = null, Func<IToldStream, IRunSink[]>? sinks = null)
    {
        IToldStream stream = scenario.OpenStream();
        var scorer = new Scorer(stream, ScoredRows.Options(stream.Format));
        watch?.Invoke(scorer);
        IDetector detector = _detectors.TryTake(out IDetector? idle) ? idle : _factory.Create(s_noConstants);
        bool isSound = false;
        try
        {
            RunOutcome outcome = new Runner(stream, stream.Truth, detector, scorer, sinks?.Invoke(stream) ?? []).Run(cancellation: _cancellation);
            isSound = outcome.Verdict == Verdict.Answered;
            return (outcome, Breach.Of(outcome, RequirementResult.Judge(scenario.Requirements, outcome.Report!)));
        }
        finally
        {
            // Whatever state a failed detector is in, the next run gets another.
            if (isSound)
            {
                _detectors.Add(detector);
            }
            else
            {
                detector.Dispose();
            }
        }
    }

    public void Dispose()
    {
        while (_detectors.TryTake(out IDetector? detector))
        {
            detector.Dispose();
        }
    }

    private void NoteAlone(Trial trial)
    {
        int knob = trial.Input.Disturbances[0].Knob;
        if (!_alone.TryGetValue(knob, out Trial? known) || trial.Input.Harshness <= known.Input.Harshness)
        {
            _alone[knob] = trial;
        }
    }

    private Trial TryOne(ChallengeInput input, Breach? target, bool isOnAll)
    {
        Scenario scenario;
        try
        {
            if (input.IsContradictory)
            {
                return new Trial(input, TrialState.Contradictory, null, 0, 0, 0);
            }

            scenario = input.On(_scenario);
        }
        catch (ScenarioException)
        {
            return new Trial(input, TrialState.Contradictory, null, 0, 0, 0);
        }

        List<Breach> candidates = [.. Run(scenario).Breaches.Where(b => target is null || b.IsLike(target))];
        return candidates.Count == 0 ? new Trial(input, TrialState.Held, null, 0, 0, 1) : Check(input, scenario, candidates, isOnAll);
    }

    // A requirement counts as broken when it is on enough of the check seeds; of several the first.
    private Trial Check(ChallengeInput input, Scenario scenario, List<Breach> candidates, bool isOnAll)
    {
        var counts = new int[candidates.Count];
        int made = 0;
        for (; made < _settings.CheckSeeds && (isOnAll || counts.Max() < _settings.CheckLeast); made++)
        {
            if (!isOnAll && counts.Max() + _settings.CheckSeeds - made < _settings.CheckLeast)
            {
                break;
            }

            IReadOnlyList<Breach> other = Run(scenario.WithSeed(scenario.Seed + (ulong)made + 1)).Breaches;
            for (int i = 0; i < counts.Length; i++)
            {
                counts[i] += other.Any(b => b.IsLike(candidates[i])) ? 1 : 0;
            }
        }

        int first = Array.FindIndex(counts, c => c >= _settings.CheckLeast);
        return first < 0
            ? new Trial(input, TrialState.Held, null, made, counts.Max(), 1 + made)
            : new Trial(input, TrialState.Broken, candidates[first], made, counts[first], 1 + made);
    }
}
