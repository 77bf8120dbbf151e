// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Groups;

/// <summary>The quality gate over days of mixed activity.</summary>
internal sealed class DayGroup : GradingGroup
{
    // Wrong readings closer than this share their cause [ns].
    private const long EpisodeNs = 60_000_000_000;
    private const double LatencyLimitS = 0.5;

    private static readonly (MarkKind Kind, bool IsLight, string Words)[] s_readings =
    [
        (MarkKind.HeartRateBpm, false, "heart rate, ECG"), (MarkKind.HeartRateBpm, true, "heart rate, light"),
        (MarkKind.HeartRateFusedBpm, false, "heart rate, whichever is steady"), (MarkKind.ArrivalTimeMs, true, "arrival of single beats"),
        (MarkKind.ArrivalSpotMs, true, "arrival, median of 30 s"), (MarkKind.Spo2Percent, true, "saturation"),
        (MarkKind.PerfusionIndexPercent, true, "perfusion index"),
    ];

    /// <inheritdoc/>
    public override string Name => "day";

    /// <inheritdoc/>
    public override string Title => "Gate: days of mixed activity";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        Scenario scenario = GradedRun.Read("grading-sets", "mixed-day");
        GradedRun[] runs = workers.ForEach(
            Enumerable.Range(1, options.Days), n => GradedRun.Of(scenario.WithSubject((ulong)n).WithSeed((ulong)n), IsKept));
        double days = options.Days * scenario.DurationS / 86400;
        ScoreReport[] reports = [.. runs.Select(r => r.Report)];
        var beats = new PooledEvents(reports, ChannelName.Ecg, MarkKind.RPeak);
        var feet = new PooledEvents(reports, ChannelName.Infrared, MarkKind.PulseFootTangent);
        var rows = new List<FigureRow>
        {
            WrongRow(runs, days),
            new Judge().Row("R peaks of these days, open gate or not", $"{beats.CountsText}; {beats.TimingText}"),
            new Judge().Row("feet by tangents of these days, open gate or not", $"{feet.CountsText}; {feet.TimingText}"),
        };
        foreach ((MarkKind kind, bool isLight, string words) in s_readings)
        {
            var pooled = new PooledReadings(reports, r => Is(r.Kind, r.Channel, kind, isLight));
            string parts = string.Join(", ", runs.SelectMany(r => r.Wrong).Where(m => Is(m.Kind, m.Channel, kind, isLight))
                .CountBy(m => DayShares.PartAt(scenario, m.TimeNs * 1e-9)).OrderBy(c => c.Key)
                .Select(c => FormattableString.Invariant($"{c.Key.ToString().ToLowerInvariant()} {c.Value}")));
            rows.Add(new Judge().Row(
                $"wrong readings: {words}",
                pooled.Given == 0 ? "-" : $"{pooled.WrongText} ({(parts.Length == 0 ? "none" : parts)}), {pooled.InUnusable} of them in unusable stretches; {PooledReadings.PerDay(pooled.Wrong, days)}"));
        }

        foreach ((MarkKind kind, bool isLight, string words) in s_readings)
        {
            rows.Add(AvailableRow(words, kind, isLight, [.. runs.Select(r => DayShares.Of(scenario, r, kind, isLight))]));
        }

        rows.Add(FirstRow(reports));
        rows.Add(LatencyRow(runs));
        return rows;
    }

    /// <summary>Whether a reading is of a kind, from the ECG or from the light; the one from whichever is steady may stand on either.</summary>
    public static bool Is(MarkKind kind, ChannelName channel, MarkKind wanted, bool isLight) =>
        kind == wanted && (kind == MarkKind.HeartRateFusedBpm || channel == ChannelName.Ecg != isLight);

    private static bool IsKept(MarkKind kind) =>
        kind is MarkKind.RPeak or MarkKind.GateShut or MarkKind.JointGateShut || s_readings.Any(r => r.Kind == kind);

    private static FigureRow WrongRow(GradedRun[] runs, double days)
    {
        long wrong = runs.Sum(r => r.Wrong.Count);
        long episodes = 0;
        foreach (GradedRun run in runs)
        {
            long last = long.MinValue / 2;
            foreach (long time in run.Wrong.Select(w => w.TimeNs).Order())
            {
                episodes += time - last > EpisodeNs ? 1 : 0;
                last = time;
            }
        }

        return new Judge().AtMost("wrong readings a day, upper 95 % bound", EventRates.UpperLimit95(wrong) / days, 1, "").Row(
            FormattableString.Invariant($"grading-sets/mixed-day, {days:0.#} days, all readings"),
            FormattableString.Invariant($"{wrong} wrong, {PooledReadings.PerDay(wrong, days)}, bound {EventRates.UpperLimit95(wrong) / days:0.0#}; episodes a minute and more apart: {episodes}, bound {EventRates.UpperLimit95(episodes) / days:0.0#} a day{Trouble(runs)}"));
    }

    private static FigureRow AvailableRow(string words, MarkKind kind, bool isLight, DayShares[] days)
    {
        double? Share(DayPart part) => days.All(d => d.Given == 0) ? null : 100.0 * days.Sum(d => d.Available(part)) / days.Sum(d => d.Usable(part));
        var judge = new Judge();

        // Asked of heart rates; of the ECG walking says nothing about coherence, but is asked all the same.
        if (kind is MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm)
        {
            judge.AtLeast("rest", Share(DayPart.Rest), 95, "%").AtLeast("walking", Share(DayPart.Walking), 80, "%");
        }

        string measured = Share(DayPart.Rest) is null ? "-" : string.Join(", ", Enum.GetValues<DayPart>().Select(p =>
            FormattableString.Invariant($"{p.ToString().ToLowerInvariant()} {Share(p):0.0} % of {days.Sum(d => d.Usable(p)) / 36000.0:0.0} h")));
        return judge.Row($"share of usable time with a reading: {words}", measured);
    }

    private static FigureRow FirstRow(ScoreReport[] reports)
    {
        double[] first = [.. reports.Select(r => r.Readings
            .Where(x => x.Kind is MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm && x.FirstReadingS is not null).Min(x => x.FirstReadingS)).OfType<double>()];
        string measured = first.Length == 0 ? "-" : string.Join(", ", first.Select(f => FormattableString.Invariant($"{f:0.0} s")));
        return new Judge().AtMost("latest of the days", first.Length == 0 ? null : first.Max(), 10, "s").Row("first heart rate after the start", measured);
    }

    private static FigureRow LatencyRow(GradedRun[] runs)
    {
        double[] latencies = [.. runs.SelectMany(r => r.List.Marks).Where(m => m.Kind == MarkKind.RPeak).Select(m => (m.EmittedTimeNs - m.TimeNs) * 1e-9).Order()];
        if (latencies.Length == 0)
        {
            return new Judge().AtLeast("beats told in time", null, 99, "%").Row("latency of R peaks", "");
        }

        long inTime = latencies.Count(l => l <= LatencyLimitS);
        return new Judge().AtLeast("beats told within 0.5 s", 100.0 * inTime / latencies.Length, 99, "%").Row(
            "latency of R peaks; what comes later is found by looking back",
            FormattableString.Invariant($"median {latencies[latencies.Length / 2]:0.000} s; within 0.5 s {PooledEvents.Share(inTime, latencies.Length)}"));
    }
}
