// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>Last stage: shortens a scenario that breaks a requirement, so that the failure is soon seen.</summary>
/// <remarks>
/// What breaks at the full length stays what it is; a length counts only if the requirement breaks at it too, the moment of failure
/// is in it, scored and still a failure, and the scenario without disturbances meets the requirement: what is too short for a reading
/// breaks everything. A failure that no single moment shows is made of the whole record, which is left as long as it is.
/// </remarks>
internal static class Shortener
{
    /// <summary>Lengths that a scenario may be shortened to [s]: the lead-in of 8 s, the last second and a few beats must fit.</summary>
    public static IReadOnlyList<double> LengthsS { get; } = [15, 20, 25, 30, 40, 50, 60, 80, 100, 120, 180, 240, 300, 450, 600, 900, 1800, 3600];

    /// <summary>Shortens.</summary>
    /// <param name="bench">Where inputs are tried.</param>
    /// <param name="ranges">The knobs.</param>
    /// <param name="found">What breaks the requirement at the full length.</param>
    /// <param name="moment">When it does so.</param>
    /// <returns>The shortest that still does, and the moment in its words; the same when none is shorter.</returns>
    public static (Trial Found, Moment Moment) Shorten(TrialBench bench, IReadOnlyList<KnobRange> ranges, Trial found, Moment moment)
    {
        if (!moment.IsSingle)
        {
            return (found, moment);
        }

        Breach target = found.Breach!;
        double[] lengths = [.. LengthsS.Where(l => l < found.Input.DurationS && l > moment.TimeS)];
        var none = new ChallengeInput(ranges, [], found.Input.DurationS);
        IReadOnlyList<Trial> plain = bench.Try([.. lengths.Select(none.Lasting)], target);
        double[] sound = [.. lengths.Where((_, i) => plain[i].State == TrialState.Held)];
        foreach (Trial trial in bench.Try([.. sound.Select(found.Input.Lasting)], target).Where(t => t.IsBroken))
        {
            Moment kept = MomentFinder.Locate(bench, trial.Input.On(bench.Scenario), target, moment.TimeS);
            if (kept.IsSingle)
            {
                return (trial, kept);
            }
        }

        return (found, moment);
    }
}
