// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>
/// Fourth stage: takes away everything that the breach does not need. Disturbances are left out, turned down, or lose what they bring along, until
/// nothing more goes: without any one disturbance, or with any one a step of its grid milder, the requirement is met (1-minimal, as in delta
/// debugging: Zeller, Hildebrandt, IEEE Trans Softw Eng 28:183, 2002). All at the full length: a shorter scenario has fewer beats,
/// and what is mild could break it by chance.
/// </summary>
internal sealed class Shrinker
{
    private static readonly double[] s_shares = [0.1, 0.25, 0.5, 0.75, 0.9];

    private readonly TrialBench _bench;
    private readonly IReadOnlyList<KnobRange> _ranges;

    /// <summary>Creates the shrinker.</summary>
    /// <param name="bench">Where inputs are tried.</param>
    /// <param name="ranges">The knobs.</param>
    public Shrinker(TrialBench bench, IReadOnlyList<KnobRange> ranges)
    {
        _bench = bench;
        _ranges = ranges;
    }

    /// <summary>Shrinks.</summary>
    /// <param name="found">What broke a requirement; that one must go on breaking.</param>
    public Trial Shrink(Trial found)
    {
        Breach target = found.Breach!;
        Trial now = found;
        while (true)
        {
            Trial next = Mildest(Softer(now.Input), target) ?? Plainer(now.Input, target) ?? now;
            if (ReferenceEquals(next, now))
            {
                return now;
            }

            now = next;
        }
    }

    /// <summary>Everything that is one disturbance less, or one turned down.</summary>
    private IEnumerable<ChallengeInput> Softer(ChallengeInput input)
    {
        for (int i = 0; i < input.Disturbances.Count; i++)
        {
            Disturbance own = input.Disturbances[i];
            KnobRange range = _ranges[own.Knob];
            double level = range.LevelOf(own.Value);
            IEnumerable<double?> milder = s_shares.Select(s => range.ValueAt(s * level))
                .Where(v => v is double x && range.LevelOf(x) < level)
                .Append(range.Milder(own.Value))
                .Append(null)
                .Distinct();
            foreach (double? value in milder)
            {
                yield return input.With(i, value);
            }
        }
    }

    // What a knob brings along has no harshness of its own, so it goes last.
    private Trial? Plainer(ChallengeInput input, Breach target)
    {
        IEnumerable<string> keys = input.Disturbances.SelectMany(d => input.AlongWith(d, _bench.Scenario)).Select(a => a.Key.Name).Distinct(StringComparer.Ordinal);
        return _bench.Try([.. keys.Select(input.WithoutAlong)], target).FirstOrDefault(t => t.IsBroken);
    }

    private Trial? Mildest(IEnumerable<ChallengeInput> inputs, Breach target) =>
        _bench.Try([.. inputs], target).Where(t => t.IsBroken).MinBy(t => t.Input.Harshness);
}
