// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>
/// Last stage: takes away everything that the breach does not need. Disturbances are left out, turned down, the scenario is shortened, until
/// nothing more goes: without any one disturbance, with any one a step of its grid milder, or at the next shorter length, the requirement
/// is met (1-minimal, as in delta debugging: Zeller, Hildebrandt, IEEE Trans Softw Eng 28:183, 2002).
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

    /// <summary>Lengths that a scenario may be shortened to [s]: the lead-in of 8 s, the last second and a few beats must fit.</summary>
    public static IReadOnlyList<double> LengthsS { get; } = [15, 20, 25, 30, 40, 50, 60, 80, 100, 120, 180, 240, 300, 450, 600, 900, 1800, 3600];

    /// <summary>Shrinks.</summary>
    /// <param name="found">What broke a requirement; that one must go on breaking.</param>
    public Trial Shrink(Trial found)
    {
        Breach target = found.Breach!;
        Trial now = found;
        while (true)
        {
            Trial next = Mildest(Softer(now.Input), target) ?? Shorter(now, target) ?? now;
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

    private Trial? Mildest(IEnumerable<ChallengeInput> inputs, Breach target) =>
        _bench.Try([.. inputs], target).Where(t => t.IsBroken).MinBy(t => t.Input.Harshness);

    // A length counts only if the scenario itself is sound at it: what is too short for a reading breaks everything.
    private Trial? Shorter(Trial now, Breach target)
    {
        double[] lengths = [.. LengthsS.Where(l => l < now.Input.DurationS)];
        var none = new ChallengeInput(_ranges, [], now.Input.DurationS);
        IReadOnlyList<Trial> plain = _bench.Try([.. lengths.Select(none.Lasting)], target);
        double[] sound = [.. lengths.Where((_, i) => plain[i].State == TrialState.Held)];
        return _bench.Try([.. sound.Select(now.Input.Lasting)], target).FirstOrDefault(t => t.IsBroken);
    }
}
