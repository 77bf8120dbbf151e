// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Studies.Challenges;

/// <summary>An input that a challenge tries: which knobs are turned up how far, and how long the scenario lasts.</summary>
public sealed class ChallengeInput
{
    private readonly IReadOnlyList<KnobRange> _ranges;
    private readonly IReadOnlyList<string> _leftOut;

    /// <summary>Creates an input.</summary>
    /// <param name="ranges">The knobs of the search.</param>
    /// <param name="disturbances">Those that are turned up, each knob at most once.</param>
    /// <param name="durationS">Length [s].</param>
    /// <param name="leftOut">Names of keys that are not set along with a disturbance, though its knob says so; null for none.</param>
    public ChallengeInput(IReadOnlyList<KnobRange> ranges, IEnumerable<Disturbance> disturbances, double durationS, IReadOnlyList<string>? leftOut = null)
    {
        ArgumentNullException.ThrowIfNull(ranges);
        _ranges = ranges;
        _leftOut = leftOut ?? [];
        Disturbances = [.. disturbances.OrderBy(d => d.Knob)];
        DurationS = durationS;
        double sum = 0;
        foreach (Disturbance disturbance in Disturbances)
        {
            sum += HarshnessOf(disturbance);
        }

        Harshness = sum;
    }

    /// <summary>The knobs that are turned up, in order of the search's list.</summary>
    public IReadOnlyList<Disturbance> Disturbances { get; }

    /// <summary>Length [s].</summary>
    public double DurationS { get; }

    /// <summary>How harsh it is: the sum over its disturbances, see <see cref="Knob.HarshnessAt"/>; 0 is the scenario itself.</summary>
    public double Harshness { get; }

    /// <summary>The range of a disturbance's knob.</summary>
    /// <param name="disturbance">The disturbance.</param>
    public KnobRange RangeOf(Disturbance disturbance) => _ranges[disturbance.Knob];

    /// <summary>What a disturbance adds to the harshness.</summary>
    /// <param name="disturbance">The disturbance.</param>
    public double HarshnessOf(Disturbance disturbance)
    {
        KnobRange range = _ranges[disturbance.Knob];
        return range.Knob.HarshnessAt(range.LevelOf(disturbance.Value));
    }

    /// <summary>Whether two of its disturbances turn the same key, which cannot be.</summary>
    public bool IsContradictory => Disturbances.Select(d => _ranges[d.Knob].Knob.Key.Name).Distinct(StringComparer.Ordinal).Count() < Disturbances.Count;

    /// <summary>The same without one disturbance.</summary>
    /// <param name="place">Its place.</param>
    public ChallengeInput Without(int place) => new(_ranges, Disturbances.Where((_, i) => i != place), DurationS, _leftOut);

    /// <summary>The same with another value of one disturbance.</summary>
    /// <param name="place">Its place.</param>
    /// <param name="value">The value; null leaves it out.</param>
    public ChallengeInput With(int place, double? value) => value is double other
        ? new(_ranges, Disturbances.Select((d, i) => i == place ? d with { Value = other } : d), DurationS, _leftOut)
        : Without(place);

    /// <summary>The same with another length.</summary>
    /// <param name="durationS">Length [s].</param>
    public ChallengeInput Lasting(double durationS) => new(_ranges, Disturbances, durationS, _leftOut);

    /// <summary>The same, but a key is not set along with a disturbance.</summary>
    /// <param name="key">Name of the key.</param>
    public ChallengeInput WithoutAlong(string key) => new(_ranges, Disturbances, DurationS, [.. _leftOut, key]);

    /// <summary>The values that a disturbance brings along: where the scenario does not say, and no other disturbance does.</summary>
    /// <param name="disturbance">The disturbance.</param>
    /// <param name="scenario">The scenario that the challenge began with.</param>
    public IEnumerable<KeyValue> AlongWith(Disturbance disturbance, Scenario scenario)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        return RangeOf(disturbance).Knob.Along.Where(a =>
            !IsOwnWord(scenario, a) && !_leftOut.Contains(a.Key.Name) && !Disturbances.Any(d => RangeOf(d).Knob.Key == a.Key));
    }

    /// <summary>The scenario of the input.</summary>
    /// <param name="scenario">The scenario that the challenge began with.</param>
    /// <exception cref="ScenarioException">The values contradict each other or the scenario.</exception>
    public Scenario On(Scenario scenario)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        var own = new List<KeyValue>();
        foreach (KeyValue along in Disturbances.SelectMany(d => AlongWith(d, scenario)))
        {
            if (!own.Any(o => o.Key == along.Key))
            {
                own.Add(along);
            }
        }

        own.AddRange(Disturbances.Select(d => new KeyValue(_ranges[d.Knob].Knob.Key, d.Value)));
        if (DurationS != scenario.DurationS)
        {
            own.Add(new KeyValue(ScenarioKeys.DurationS, DurationS));
        }

        return own.Count == 0 ? scenario : scenario.With(own);
    }

    // The scenario's own word stands; what was drawn for a person does not.
    private static bool IsOwnWord(Scenario scenario, KeyValue along) =>
        scenario.Values.IsSet(along.Key) && scenario.Subject?.Values.Any(v => v.Key == along.Key) != true;
}
