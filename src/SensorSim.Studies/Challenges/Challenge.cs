// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Signals.Detectors;

namespace SensorSim.Studies.Challenges;

/// <summary>Looks for the mildest input that makes a detector break a requirement of a scenario.</summary>
/// <remarks>
/// Seeded, and the same for any number of workers: each batch of inputs is laid down before it is tried, and what comes next depends on the
/// answers only. <see cref="SingleSearch"/> has up to half of the runs, <see cref="CombinationSearch"/> up to seven tenths
/// (all while nothing broke), <see cref="Descent"/> the rest; then <see cref="Shrinker"/>, all at the full
/// length, and <see cref="Shortener"/>.
/// </remarks>
public static class Challenge
{
    private const double SinglesShare = 0.5;
    private const double CombinationsShare = 0.7;

    /// <summary>Searches.</summary>
    /// <param name="scenario">The scenario; sets at least one requirement.</param>
    /// <param name="factory">Makes the detector; stays the caller's.</param>
    /// <param name="settings">How to search; null for the defaults.</param>
    /// <param name="progress">Told the runs made after each batch; may be null.</param>
    /// <param name="cancellation">Ends the search.</param>
    /// <exception cref="NotSupportedException">The scenario requires nothing, no knob is left, or the detector cannot work on its stream.</exception>
    /// <exception cref="OperationCanceledException">The search was cancelled.</exception>
    public static ChallengeResult Search(
        Scenario scenario,
        IDetectorFactory factory,
        ChallengeSettings? settings = null,
        Action<long>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentNullException.ThrowIfNull(factory);
        settings ??= new ChallengeSettings();
        Check(scenario, settings);
        KnobRange[] ranges = [.. settings.Knobs.Select(k => KnobRange.On(k, scenario)).OfType<KnobRange>()];
        if (ranges.Length == 0)
        {
            throw new NotSupportedException(
                $"{scenario.File}: no knob is left to turn; those asked for are at their harsh end or change over time in the scenario.");
        }

        using var bench = new TrialBench(scenario, factory, settings, progress, cancellation);
        Trial itself = bench.Try([new ChallengeInput(ranges, [], scenario.DurationS)])[0];
        Trial?[] alone = new Trial?[ranges.Length];
        Trial? best = itself.IsBroken ? itself : null;
        if (best is null)
        {
            double share = ranges.Length == 1 ? 1 : SinglesShare;
            alone = SingleSearch.Search(bench, ranges, scenario.DurationS, () => bench.RunCount < share * settings.MostRuns);
            best = Together(bench, ranges, alone, scenario.DurationS, settings);
        }

        long searched = bench.RunCount;
        double? harshness = best?.Input.Harshness;
        best = best is null || itself.IsBroken ? best : new Shrinker(bench, ranges).Shrink(best);
        Trial? found = null;
        Scenario? broken = null;
        Moment? moment = null;
        if (best is not null)
        {
            moment = MomentFinder.Locate(bench, best.Input.On(scenario), best.Breach!);
            (found, moment) = itself.IsBroken ? (best, moment) : Shortener.Shorten(bench, ranges, best, moment);
            broken = found.Input.On(scenario);

            // What is told of the find comes from every check seed.
            bool isShorter = !ReferenceEquals(found, best);
            best = bench.Try([best.Input], best.Breach, isOnAll: true)[0];
            found = isShorter ? bench.Try([found.Input], found.Breach, isOnAll: true)[0] : best;
        }

        return new ChallengeResult
        {
            Scenario = scenario,
            Settings = settings,
            Detector = factory.Identity,
            Ranges = ranges,
            Found = found,
            AtFullLength = best,
            FoundHarshness = harshness,
            Alone = [.. ranges.Select((_, k) => bench.MildestAlone(k))],
            Broken = broken,
            Moment = moment,
            Around = broken is null ? null : MomentFinder.Around(bench, broken, moment!),
            RunCount = bench.RunCount,
            SearchRunCount = searched,
            InputCount = bench.InputCount,
            ContradictionCount = bench.ContradictionCount,
            HarshestHeld = bench.HarshestHeld,
        };
    }

    private static Trial? Together(
        TrialBench bench, KnobRange[] ranges, Trial?[] alone, double durationS, ChallengeSettings settings)
    {
        Trial? best = alone.OfType<Trial>().MinBy(t => t.Input.Harshness);
        if (ranges.Length > 1)
        {
            var combinations = new CombinationSearch(bench, ranges, alone, durationS, settings.Seed);

            // A batch of contradictions only costs no run: the count of batches ends it too.
            long most = settings.MostRuns;
            for (int batch = 0; batch < most && bench.RunCount < (best is null ? 1 : CombinationsShare) * most; batch++)
            {
                best = combinations.Step(best);
            }
        }

        if (best is not null)
        {
            var descent = new Descent(bench, ranges, settings.Seed);
            while (!descent.IsDone && bench.RunCount < settings.MostRuns)
            {
                best = descent.Step(best);
            }
        }

        return best;
    }

    private static void Check(Scenario scenario, ChallengeSettings settings)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(settings.MostRuns, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(settings.CheckSeeds);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(settings.CheckLeast, settings.CheckSeeds);
        ArgumentOutOfRangeException.ThrowIfNegative(settings.CheckLeast);
        ArgumentOutOfRangeException.ThrowIfLessThan(settings.Workers, 1);
        if (!scenario.Requirements.Any())
        {
            throw new NotSupportedException(
                $"{scenario.File}: nothing is required, so nothing can be broken; set a requirement below [requirements], for example r_peak_sensitivity_min = 0.99.");
        }
    }
}
