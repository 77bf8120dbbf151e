// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Reports.Tests.StudyReports;

/// <summary>Studies with rows made by hand: no signal is made.</summary>
internal static class StudySamples
{
    internal const string MuscleKey = "ecg_noise.muscle_snr_db";
    internal const string RateKey = "heart.rate_bpm";
    internal const string PerfusionKey = "pulse.perfusion_index_percent";

    internal static RequirementDefinition Sensitivity { get; } = Requirement("r_peak_sensitivity_min");

    internal static RequirementDefinition Predictivity { get; } = Requirement("r_peak_positive_predictivity_min");

    internal static RequirementDefinition Bias { get; } = Requirement("r_peak_timing_bias_ms_max");

    internal static RequirementDefinition Requirement(string key) => RequirementKeys.All.First(r => r.Key.Key == key);

    internal static Factor Factor(string key, params object[] levels) => new(AllKeys.Find(key)!, levels);

    /// <summary>A plan whose points are every combination of the factors' levels.</summary>
    internal static StudyPlan Grid(int seeds, string[] detectors, params Factor[] factors)
    {
        IEnumerable<object[]> points = [[]];
        foreach (Factor factor in factors)
        {
            points = points.SelectMany(p => factor.Levels.Select(l => (object[])[.. p, l]));
        }

        return Plan(seeds, detectors, factors, [.. points]);
    }

    internal static StudyPlan Plan(int seeds, string[] detectors, Factor[] factors, object[][] points) => new()
    {
        Title = "muscle noise at rest",
        File = "/some/where/noise.toml",
        Text = "",
        Scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 60\nseed = 3\ntitle = \"rest\"", "rest.toml"),
        Factors = factors,
        Points = [.. points.Select((p, i) => new StudyPoint(i, p))],
        Seeds = [.. Enumerable.Range(1, seeds).Select(s => (ulong)s)],
        Detectors = [.. detectors.Select(d => new DetectorChoice { Label = d })],
        Requirements = [(Sensitivity, 0.99), (Predictivity, 0.98), (Bias, 5)],
    };

    /// <summary>Rows of every run; of 60 beats a run misses a share that depends on its point.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="missed">Beats missed of 60, by run.</param>
    internal static StudyResults Results(StudyPlan plan, Func<RunKey, int> missed) => new(plan, Enumerable.Range(0, (int)plan.RunCount).Select(run =>
    {
        int lost = Math.Clamp(missed(plan.KeyOf(run)), 0, 60);
        return Row(run, 60 - lost, lost, lost / 2, (1 + (run % 3) + lost) * 1_000_000L);
    }));

    internal static RunRow Row(long run, long matched, long missed, long extra, long errorNs, Verdict verdict = Verdict.Answered, string reason = "") => new()
    {
        Run = run,
        Verdict = verdict,
        VerdictReason = reason,
        SampleCount = 15000,
        MarkCount = matched + extra,
        ScoredNs = 51_000_000_000,
        Events =
        [
            new EventRow
            {
                Channel = ChannelName.Ecg,
                Kind = MarkKind.RPeak,
                Counts = new DetectionCounts(matched, missed, extra),
                TimedCount = matched,
                TimingSumNs = matched * errorNs,
                TimingSquaresNs = (Int128)matched * errorNs * errorNs,
                TimingP95Ns = matched == 0 ? null : errorNs,
                UnusableTruth = 0,
                UnusableDetections = 0,
            },
        ],
        Readings = [],
    };

    /// <summary>Failure points as a finder would give them, for one numeric factor.</summary>
    internal static IReadOnlyList<FailurePoint> Points(StudyResults results, int factor = 0)
    {
        StudyPlan plan = results.Plan;
        var points = new List<FailurePoint>();
        foreach (RequirementOnRow requirement in results.Requirements)
        {
            for (int detector = 0; detector < plan.Detectors.Count; detector++)
            {
                points.Add(Point(results, requirement, detector, factor));
            }
        }

        return points;
    }

    private static FailurePoint Point(StudyResults results, RequirementOnRow requirement, int detector, int factor)
    {
        StudyPlan plan = results.Plan;
        LevelFigure[] levels =
        [
            .. plan.Points.OrderBy(p => (double)p.Values[factor]).Select(p =>
            {
                var pool = new RunPool(requirement.Definition, requirement.Channel);
                foreach (RunRow row in results.At(p.Index, detector))
                {
                    pool.Add(row);
                }

                double half = pool.Figure is double f ? 0.02 * Math.Abs(f) : 0;
                return new LevelFigure(p.Index, (double)p.Values[factor], pool.Figure, pool.Figure is double g ? new Interval(g - half, g + half) : null, pool.RunCount, pool.Counts.Reference);
            }),
        ];
        int first = Array.FindIndex(levels, l => requirement.IsMetBy(l.Figure));
        bool isFound = first > 0;
        double? level = isFound ? (levels[first - 1].Level + levels[first].Level) / 2 : null;
        return new FailurePoint
        {
            Requirement = requirement,
            Detector = detector,
            Factor = plan.Factors[factor],
            Held = [],
            State = isFound ? FailurePointState.Found : first == 0 ? FailurePointState.MetEverywhere : FailurePointState.MetNowhere,
            Level = level,
            Interval = level is double l ? new Interval(detector == 1 ? double.NegativeInfinity : l - 0.8, l + 0.9) : null,
            Levels = levels,
            Curve = [],
            Definition = $"Level at which {requirement.Definition.Key.Key}, pooled over seeds, crosses {requirement.Limit}.",
            Warnings = detector == 1 && isFound ? ["The interval reaches the end of the levels."] : [],
        };
    }
}
