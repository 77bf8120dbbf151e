// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>Rows of the rule readings: between which values a reading must lie at which time, how often there must be one, and how soon.</summary>
internal static class ReadingRows
{
    /// <summary>A reading may know a beat this much before truth has it, and may stand this much before it [ns]; half the match window.</summary>
    public const long MarginNs = 75_000_000;

    /// <summary>After the latest beat there is something to read for this long [ns]: about the longest pause that is still a rhythm, as the scorer has it.</summary>
    public const long LongestPauseNs = 5_000_000_000;

    private const long SecondNs = 1_000_000_000;
    private const double Thousandths = 1000;

    public static IEnumerable<AcceptanceRow> Of(PlannedRequirement requirement, CaseTime time, CaseTruth truth)
    {
        if (time.ClockChannel(requirement.Kind, requirement.Channel) is not { } channel)
        {
            yield break;
        }

        ChannelDelay clock = time.ClockOf(channel);
        List<Stretch> usable = Stretches.Both(
            [.. time.Scored(requirement.Kind, requirement.Channel).Select(s => new Stretch(clock.DeviceNs(s.BeginNs), clock.DeviceNs(s.EndNs)))],
            [RequirementPart.Of(requirement)]);
        IReadOnlyList<Known> known = requirement.Low is double low && requirement.High is double high
            ? [new Known(new Stretch(0, long.MaxValue / 4), long.MaxValue / 4, low, high, -1)]
            : requirement.ErrorMax is not null || requirement.ErrorPercentMax is not null ? Of(requirement, truth, clock) : [];
        List<AcceptanceRow> within = [.. known.SelectMany(k => Stretches.Both([k.Span], usable).Select(s => Row(requirement, s, k)))];
        foreach (AcceptanceRow row in within)
        {
            yield return row;
        }

        if (requirement.Low is null && within.Count > 0)
        {
            List<Stretch> silent = Stretches.Both(
                [.. time.Silent(requirement.Kind, requirement.Channel).Select(s => new Stretch(clock.DeviceNs(s.BeginNs), clock.DeviceNs(s.EndNs)))],
                [RequirementPart.Of(requirement)]);
            foreach (AcceptanceRow row in silent.SelectMany(s => Standing(requirement, known, s)))
            {
                yield return row;
            }
        }

        if (requirement.ShareMin is not null)
        {
            IReadOnlyList<Stretch> asked = within.Count > 0 ? Stretches.Joined(within.Select(r => new Stretch(r.BeginNs, r.EndNs + 1))) : usable;
            foreach (AcceptanceRow row in Seconds(requirement, asked))
            {
                yield return WithLimits(row, known);
            }
        }

        if (requirement.FirstWithinS is double first)
        {
            AcceptanceRow row = RequirementPart.Row(requirement, AcceptanceRule.First, new Stretch(0, RequirementPart.Ns(first) + 1));
            yield return WithLimits(row, known) with { EmittedByNs = RequirementPart.Ns(first) };
        }
    }

    // From each beat to the next, as long as there is something to read: between which values it must lie.
    private static List<Known> Of(PlannedRequirement requirement, CaseTruth truth, in ChannelDelay clock)
    {
        var series = new ReadingSeries(requirement, truth);
        var known = new List<Known>();
        for (int i = 0; i < series.Beats.Count; i++)
        {
            if (series.TryRange(i, out double low, out double high))
            {
                long at = clock.DeviceNs(series.Beats[i].TimeNs);
                long next = i + 1 < series.Beats.Count ? clock.DeviceNs(series.Beats[i + 1].TimeNs) - MarginNs : long.MaxValue / 4;
                known.Add(new Known(
                    new Stretch(at - MarginNs, Math.Min(at + LongestPauseNs, next)),
                    next,
                    Math.Floor((low - Tolerance(requirement, low)) * Thousandths) / Thousandths,
                    Math.Ceiling((high + Tolerance(requirement, high)) * Thousandths) / Thousandths,
                    series.Beats[i].BeatId));
            }
        }

        return known;
    }

    // In a stretch that is unusable or withheld nothing need be given, and a reading of before may still stand for a while; whatever is shown must be what was
    // right at some time since the stretch began. Where no beat comes any more that is what the last one left.
    private static IEnumerable<AcceptanceRow> Standing(PlannedRequirement requirement, IReadOnlyList<Known> known, Stretch silent)
    {
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        for (int i = FirstAfter(known, silent.BeginNs); i < known.Count && known[i].Span.BeginNs < silent.EndNs; i++)
        {
            low = Math.Min(low, known[i].Low);
            high = Math.Max(high, known[i].High);
            foreach (Stretch part in Stretches.Both([known[i].Span with { EndNs = known[i].NextNs }], [silent]))
            {
                yield return Row(requirement, part, known[i] with { Low = low, High = high });
            }
        }
    }

    // A reading that was wrong, or had no value, was none. Where nothing is known of what is right, every value counts.
    private static AcceptanceRow WithLimits(AcceptanceRow row, IReadOnlyList<Known> known)
    {
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        for (int i = FirstAfter(known, row.BeginNs); i < known.Count && known[i].Span.BeginNs <= row.EndNs; i++)
        {
            low = Math.Min(low, known[i].Low);
            high = Math.Max(high, known[i].High);
        }

        return low <= high ? row with { Low = low, High = high } : row;
    }

    // Index of the first that ends after a time.
    private static int FirstAfter(IReadOnlyList<Known> known, long timeNs)
    {
        int low = 0;
        int high = known.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (known[middle].Span.EndNs <= timeNs)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    private static AcceptanceRow Row(PlannedRequirement requirement, Stretch stretch, in Known known) =>
        RequirementPart.Row(requirement, AcceptanceRule.Within, stretch) with { Low = known.Low, High = known.High, BeatId = known.BeatId };

    private static double Tolerance(PlannedRequirement requirement, double truth) =>
        Math.Max(requirement.ErrorMax ?? 0, (requirement.ErrorPercentMax ?? 0) / 100 * Math.Abs(truth));

    // At the end of each whole second there must be a reading that still stands.
    private static IEnumerable<AcceptanceRow> Seconds(PlannedRequirement requirement, IReadOnlyList<Stretch> known)
    {
        long standsNs = RequirementPart.Ns(requirement.StandsS);
        foreach (Stretch stretch in known)
        {
            for (long begin = (stretch.BeginNs + SecondNs - 1) / SecondNs * SecondNs; begin + SecondNs <= stretch.EndNs; begin += SecondNs)
            {
                yield return RequirementPart.Row(
                    requirement, AcceptanceRule.Some, new Stretch(Math.Max(0, begin + SecondNs - standsNs), begin + SecondNs));
            }
        }
    }

    // From a beat on, as long as there is something to read; and when the next beat comes.
    private readonly record struct Known(Stretch Span, long NextNs, double Low, double High, long BeatId);
}
