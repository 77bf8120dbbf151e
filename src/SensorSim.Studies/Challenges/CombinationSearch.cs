// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Studies.Challenges;

/// <summary>
/// Second stage: several knobs together. Random directions in the box of the knobs, each tried just below the mildest harshness that broke
/// something so far, and bisected when that breaks too (random search along rays, as for the boundary of a region of failure).
/// </summary>
internal sealed class CombinationSearch
{
    private const int Rays = 16;
    private const int MostKnobs = 4;
    private const int Halvings = 4;

    private readonly TrialBench _bench;
    private readonly IReadOnlyList<KnobRange> _ranges;
    private readonly double[] _reach;
    private readonly double _durationS;
    private readonly KeyedRandom _random;
    private long _draw;

    /// <summary>Creates the search.</summary>
    /// <param name="bench">Where inputs are tried.</param>
    /// <param name="ranges">The knobs.</param>
    /// <param name="alone">What each knob broke alone.</param>
    /// <param name="durationS">Length of the scenario [s].</param>
    /// <param name="seed">Seed of the directions.</param>
    public CombinationSearch(TrialBench bench, IReadOnlyList<KnobRange> ranges, IReadOnlyList<Trial?> alone, double durationS, ulong seed)
    {
        _bench = bench;
        _ranges = ranges;
        _durationS = durationS;
        _random = new KeyedRandom(seed, "challenge.rays");

        // Where a knob breaks something alone, nothing needs to stand beside it: that is the edge of the box.
        _reach = [.. alone.Select((t, k) => t is null ? 1 : ranges[k].LevelOf(t.Input.Disturbances[0].Value))];
    }

    /// <summary>Tries one batch of rays.</summary>
    /// <param name="best">The mildest that broke something so far; null when nothing did.</param>
    /// <returns>The mildest now.</returns>
    public Trial? Step(Trial? best)
    {
        double most = best?.Input.Harshness ?? double.PositiveInfinity;
        Ray[] rays = [.. Enumerable.Range(0, Rays).Select(_ => Draw(most)).OfType<Ray>()];
        IReadOnlyList<Trial> trials = _bench.Try([.. rays.Select(r => At(r, r.Longest))]);
        List<(Ray Ray, double Held, double Broken, Trial Trial)> open =
            [.. rays.Zip(trials).Where(p => p.Second.IsBroken).Select(p => (p.First, 0.0, p.First.Longest, p.Second))];
        for (int i = 0; i < Halvings && open.Count > 0; i++)
        {
            IReadOnlyList<Trial> middle = _bench.Try([.. open.Select(o => At(o.Ray, (o.Held + o.Broken) / 2))]);
            open = [.. open.Select((o, n) => middle[n].IsBroken
                ? (o.Ray, o.Held, (o.Held + o.Broken) / 2, middle[n])
                : (o.Ray, (o.Held + o.Broken) / 2, o.Broken, o.Trial))];
        }

        foreach ((_, _, _, Trial trial) in open)
        {
            best = best is null || trial.Input.Harshness < best.Input.Harshness ? trial : best;
        }

        return best;
    }

    private Ray? Draw(double most)
    {
        int count = Math.Min(_ranges.Count, 2 + (int)(Next() * (MostKnobs - 1)));
        var knobs = new List<int>();
        for (int tries = 0; tries < 50 && knobs.Count < count; tries++)
        {
            int knob = (int)(Next() * _ranges.Count);
            if (!knobs.Any(k => _ranges[k].Knob.Key == _ranges[knob].Knob.Key))
            {
                knobs.Add(knob);
            }
        }

        double[] levels = [.. knobs.Select(k => (0.1 + (0.9 * Next())) * _reach[k])];
        double least = knobs.Sum(k => _ranges[k].Knob.HarshnessAt(0));
        double sum = knobs.Zip(levels).Sum(p => _ranges[p.First].Knob.HarshnessAt(p.Second)) - least;

        // To the edge of the box, or just below what is known already.
        double edge = knobs.Zip(levels).Min(p => _reach[p.First] / p.Second);
        double longest = Math.Min(edge, ((0.98 * most) - least) / sum);
        return sum > 0 && longest > 0 ? new Ray([.. knobs], levels, longest) : null;
    }

    private ChallengeInput At(Ray ray, double length) => new(
        _ranges,
        ray.Knobs.Zip(ray.Levels)
            .Select(p => (Knob: p.First, Value: _ranges[p.First].ValueAt(p.Second * length)))
            .Where(p => p.Value is not null)
            .Select(p => new Disturbance(p.Knob, p.Value!.Value)),
        _durationS);

    private double Next() => _random.Uniform(_draw++);

    private sealed record Ray(int[] Knobs, double[] Levels, double Longest);
}
