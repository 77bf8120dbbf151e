// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Studies.Challenges;

/// <summary>
/// Third stage: from the mildest input found, downhill with a (1+8) evolution strategy whose step follows the 1/5 success rule (Rechenberg 1973,
/// from memory). A child must be milder than its parent and break something.
/// </summary>
internal sealed class Descent
{
    private const int Children = 8;
    private const double LargestStep = 0.3;
    private const double SmallestStep = 0.01;

    private readonly TrialBench _bench;
    private readonly IReadOnlyList<KnobRange> _ranges;
    private readonly KeyedRandom _sizes;
    private readonly KeyedRandom _choices;
    private double _step = LargestStep;
    private long _draw;

    /// <summary>Creates the descent.</summary>
    /// <param name="bench">Where inputs are tried.</param>
    /// <param name="ranges">The knobs.</param>
    /// <param name="seed">Seed of the mutations.</param>
    public Descent(TrialBench bench, IReadOnlyList<KnobRange> ranges, ulong seed)
    {
        _bench = bench;
        _ranges = ranges;
        _sizes = new KeyedRandom(seed, "challenge.mutation_sizes");
        _choices = new KeyedRandom(seed, "challenge.mutation_choices");
    }

    /// <summary>Whether its steps are too small to find anything.</summary>
    public bool IsDone => _step < SmallestStep;

    /// <summary>One generation.</summary>
    /// <param name="parent">The mildest input so far.</param>
    /// <returns>The mildest now.</returns>
    public Trial Step(Trial parent)
    {
        ChallengeInput[] children = [.. Enumerable.Range(0, Children).Select(_ => Child(parent.Input))
            .Where(c => c.Disturbances.Count > 0 && c.Harshness < parent.Input.Harshness - 1e-9)];
        Trial[] better = [.. _bench.Try(children).Where(t => t.IsBroken)];

        // Of eight children more than one in five: go further; else nearer.
        _step = better.Length * 5 > Children ? Math.Min(LargestStep, _step * 1.5) : _step * 0.85;
        return better.Length == 0 ? parent : better.MinBy(t => t.Input.Harshness)!;
    }

    private ChallengeInput Child(ChallengeInput parent)
    {
        var levels = new Dictionary<int, double>();
        foreach (Disturbance disturbance in parent.Disturbances)
        {
            double level = parent.RangeOf(disturbance).LevelOf(disturbance.Value);
            levels[disturbance.Knob] = level * (1 + (_step * _sizes.Normal(_draw)));
            _draw++;
        }

        // Now and then one is left out, or a little of another comes in.
        double what = _choices.Uniform(_draw++);
        int place = (int)(_choices.Uniform(_draw++) * (what < 0.2 ? parent.Disturbances.Count : _ranges.Count));
        if (what < 0.2)
        {
            levels[parent.Disturbances[place].Knob] = 0;
        }
        else if (what < 0.5 && !parent.Disturbances.Any(d => parent.RangeOf(d).Knob.Key == _ranges[place].Knob.Key))
        {
            levels[place] = _step * _choices.Uniform(_draw++);
        }

        return new ChallengeInput(
            _ranges,
            levels.Select(l => (Knob: l.Key, Value: _ranges[l.Key].ValueAt(l.Value)))
                .Where(l => l.Value is not null)
                .Select(l => new Disturbance(l.Knob, l.Value!.Value)),
            parent.DurationS);
    }
}
