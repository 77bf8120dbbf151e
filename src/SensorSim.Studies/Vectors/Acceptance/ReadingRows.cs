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
        List<AcceptanceRow> within = requirement.Low is double low && requirement.High is double high
            ? [.. usable.Select(s => RequirementPart.Row(requirement, AcceptanceRule.Within, s) with { Low = low, High = high })]
            : requirement.ErrorMax is not null || requirement.ErrorPercentMax is not null ? Within(requirement, truth, usable, clock) : [];
        foreach (AcceptanceRow row in within)
        {
            yield return row;
        }

        if (requirement.Low is null && within.Count > 0)
        {
            List<Stretch> unusable = Stretches.Both(
                [.. time.UnusableAsked(requirement.Kind, requirement.Channel).Select(s => new Stretch(clock.DeviceNs(s.BeginNs), clock.DeviceNs(s.EndNs)))],
                [RequirementPart.Of(requirement)]);
            foreach (AcceptanceRow row in unusable.SelectMany(s => Standing(requirement, truth, s, clock)))
            {
                yield return row;
            }
        }

        if (requirement.ShareMin is not null)
        {
            IReadOnlyList<Stretch> known = within.Count > 0 ? Stretches.Joined(within.Select(r => new Stretch(r.BeginNs, r.EndNs + 1))) : usable;
            foreach (AcceptanceRow row in Seconds(requirement, known))
            {
                yield return row;
            }
        }

        if (requirement.FirstWithinS is double first)
        {
            yield return RequirementPart.Row(requirement, AcceptanceRule.First, new Stretch(0, RequirementPart.Ns(first) + 1)) with { EmittedByNs = RequirementPart.Ns(first) };
        }
    }

    private static List<AcceptanceRow> Within(PlannedRequirement requirement, CaseTruth truth, List<Stretch> usable, ChannelDelay clock)
    {
        var series = new ReadingSeries(requirement, truth);
        var rows = new List<AcceptanceRow>();
        for (int i = 0; i < series.Beats.Count; i++)
        {
            if (!series.TryRange(i, out double low, out double high))
            {
                continue;
            }

            rows.AddRange(Stretches.Both([Span(series, i, clock)], usable).Select(s => Row(requirement, s, low, high, series.Beats[i].BeatId)));
        }

        return rows;
    }

    // In a stretch that is unusable nothing need be given, and a reading of before may still stand for a while; whatever is shown must be what was right
    // at some time since the stretch began.
    private static IEnumerable<AcceptanceRow> Standing(PlannedRequirement requirement, CaseTruth truth, Stretch unusable, ChannelDelay clock)
    {
        var series = new ReadingSeries(requirement, truth);
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        for (int i = 0; i < series.Beats.Count; i++)
        {
            Stretch beat = Span(series, i, clock);
            if (beat.EndNs <= unusable.BeginNs)
            {
                continue;
            }

            if (beat.BeginNs >= unusable.EndNs || !series.TryRange(i, out double least, out double most))
            {
                yield break;
            }

            low = Math.Min(low, least);
            high = Math.Max(high, most);
            foreach (Stretch part in Stretches.Both([beat], [unusable]))
            {
                yield return Row(requirement, part, low, high, series.Beats[i].BeatId);
            }
        }
    }

    // From a beat to the next, as long as there is something to read.
    private static Stretch Span(ReadingSeries series, int beat, in ChannelDelay clock)
    {
        long at = clock.DeviceNs(series.Beats[beat].TimeNs);
        long end = at + LongestPauseNs;
        return new Stretch(at - MarginNs, beat + 1 < series.Beats.Count ? Math.Min(end, clock.DeviceNs(series.Beats[beat + 1].TimeNs) - MarginNs) : end);
    }

    private static AcceptanceRow Row(PlannedRequirement requirement, Stretch stretch, double low, double high, long beatId) =>
        RequirementPart.Row(requirement, AcceptanceRule.Within, stretch) with
        {
            Low = Math.Floor((low - Tolerance(requirement, low)) * Thousandths) / Thousandths,
            High = Math.Ceiling((high + Tolerance(requirement, high)) * Thousandths) / Thousandths,
            BeatId = beatId,
        };

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
}
