// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;

namespace SensorSim.Testing;

/// <summary>A scenario with the seeds that a detector is to be tested on. Each method gives a new one and leaves this as it is.</summary>
public sealed class GivenScenario
{
    private readonly string _label;

    internal GivenScenario(Scenario scenario, string label, bool isInFile)
        : this(scenario, label, isInFile, [scenario.Seed])
    {
    }

    private GivenScenario(Scenario scenario, string label, bool isInFile, IReadOnlyList<ulong> seeds)
    {
        Scenario = scenario;
        _label = label;
        IsInFile = isInFile;
        SeedList = seeds;
    }

    /// <summary>The scenario.</summary>
    public Scenario Scenario { get; }

    /// <summary>The seeds, each once.</summary>
    public IReadOnlyList<ulong> SeedList { get; }

    /// <summary>Whether <c>sensorsim run</c> can read it where it lies.</summary>
    internal bool IsInFile { get; }

    /// <summary>What messages call it, seeds left out.</summary>
    internal string Label => Scenario.Own.Count == 0 ? _label
        : $"{_label} with {string.Join(", ", Scenario.Own.Select(v => $"{v.Key.Name} = {v.Text}"))}";

    /// <summary>One seed in place of the scenario's.</summary>
    /// <param name="seed">The seed.</param>
    public GivenScenario Seed(ulong seed) => Seeds(seed);

    /// <summary>Seeds in place of the scenario's; results are pooled over them.</summary>
    /// <param name="seeds">At least one, each once.</param>
    /// <exception cref="ArgumentException">There is none, or one stands twice.</exception>
    public GivenScenario Seeds(params ulong[] seeds)
    {
        ArgumentNullException.ThrowIfNull(seeds);
        return seeds.Length > 0 && seeds.Distinct().Count() == seeds.Length
            ? new GivenScenario(Scenario, _label, IsInFile, [.. seeds])
            : throw new ArgumentException("Give at least one seed, and each once: the same seed again is the same run again.", nameof(seeds));
    }

    /// <summary>Consecutive seeds in place of the scenario's.</summary>
    /// <param name="first">The first.</param>
    /// <param name="count">How many, at least 1.</param>
    public GivenScenario SeedsFrom(ulong first, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        return Seeds([.. Enumerable.Range(0, count).Select(i => first + (ulong)i)]);
    }

    /// <summary>A key with another number.</summary>
    /// <param name="key">Its name, for example <c>ecg_amplifier.white_noise_uv_rms</c>; <c>sensorsim explain</c> lists all.</param>
    /// <param name="value">The number, in the unit that the name says.</param>
    /// <exception cref="ArgumentException">There is no such key, or it holds no number.</exception>
    /// <exception cref="ScenarioException">The value contradicts the rest of the scenario.</exception>
    public GivenScenario With(string key, double value) => With(
        KeyOf(key) is NumberKey number ? new KeyValue(number, value) : throw new ArgumentException($"{key} holds no number, it is {KeyOf(key).RangeText}.", nameof(key)));

    /// <summary>A key with another word.</summary>
    /// <param name="key">Its name, for example <c>heart.rhythm</c>.</param>
    /// <param name="word">One of its words.</param>
    /// <exception cref="ArgumentException">There is no such key, or it holds no word of a list.</exception>
    /// <exception cref="ScenarioException">The value contradicts the rest of the scenario.</exception>
    public GivenScenario With(string key, string word) => With(
        KeyOf(key) is ChoiceKey choice ? new KeyValue(choice, word) : throw new ArgumentException($"{key} holds no word of a list; write it into the scenario.", nameof(key)));

    /// <summary>Another length.</summary>
    /// <param name="seconds">Length [s].</param>
    public GivenScenario Lasting(double seconds) => With(ScenarioKeys.DurationS.Name, seconds);

    /// <summary>A drawn person: each key that the scenario does not set gets the person's value.</summary>
    /// <param name="subjectSeed">Seed of the person.</param>
    /// <exception cref="ScenarioException">Person and scenario contradict each other.</exception>
    public GivenScenario Subject(ulong subjectSeed) => new(Scenario.WithSubject(subjectSeed), _label, IsInFile, SeedList);

    /// <summary>The same, one for each seed: for a data source, so that each seed is a test of its own.</summary>
    public IEnumerable<GivenScenario> EachSeed() => SeedList.Select(s => Seed(s));

    /// <summary>Runs a detector on it, once for all the constraints that look at the result.</summary>
    /// <param name="detector">The detector, or answers that are already there.</param>
    public ScoredRuns Run(UnderTest detector)
    {
        ArgumentNullException.ThrowIfNull(detector);
        return new ScoredRuns(this, detector, [.. SeedList.Select(seed => SeedRunner.Run(Scenario.WithSeed(seed), detector))]);
    }

    /// <summary>The same under another name in messages and names of tests.</summary>
    /// <param name="name">The name.</param>
    public GivenScenario Called(string name)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        return new GivenScenario(Scenario, name, IsInFile, SeedList);
    }

    /// <summary>Name and seeds, for messages and names of tests.</summary>
    public override string ToString() => $"{Label}, {SeedText(SeedList)}";

    internal static string SeedText(IReadOnlyList<ulong> seeds)
    {
        bool isRow = seeds.Count > 2 && seeds.Zip(seeds.Skip(1)).All(p => p.Second == p.First + 1);
        return FormattableString.Invariant(isRow
            ? $"seeds {seeds[0]} to {seeds[^1]}"
            : (FormattableString)$"seed{(seeds.Count > 1 ? "s" : "")} {string.Join(", ", seeds.Take(10))}{(seeds.Count > 10 ? ", …" : "")}");
    }

    private static KeyDefinition KeyOf(string name)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        return AllKeys.Find(name) ?? throw new ArgumentException($"{name} is no key; the nearest is {AllKeys.Nearest(name).Name}.", nameof(name));
    }

    private GivenScenario With(KeyValue value) => value.Key == ScenarioKeys.Seed
        ? throw new ArgumentException($"{ScenarioKeys.Seed.Name} is given by Seed or Seeds.")
        : new GivenScenario(Scenario.With([value]), _label, IsInFile, SeedList);
}
