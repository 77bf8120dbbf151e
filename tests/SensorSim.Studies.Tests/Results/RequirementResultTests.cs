// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;

namespace SensorSim.Studies.Tests.Results;

/// <summary>Requirements against a score whose figures follow by hand.</summary>
[TestFixture]
public sealed class RequirementResultTests
{
    private const long Second = 1_000_000_000;

    // Ten beats a second apart from 10 s on; eight found, 4 ms early each; two extra between beats: Se = 8/10, +P = 8/10.
    private static readonly ScoreReport s_report = Report(found: 8, extra: 2, channels: [ChannelName.Ecg]);

    // What the readings below say, each a little off its true value.
    private static readonly Dictionary<MarkKind, double> s_values = new()
    {
        [MarkKind.HeartRateBpm] = 61, [MarkKind.ArrivalTimeMs] = 203, [MarkKind.Spo2Percent] = 98, [MarkKind.SystolicMmhg] = 124, [MarkKind.DiastolicMmhg] = 78,
    };

    [TestCase("r_peak_sensitivity_min", 0.8, true)]
    [TestCase("r_peak_sensitivity_min", 0.8001, false)]
    [TestCase("r_peak_sensitivity_min", 0, true)]
    [TestCase("r_peak_positive_predictivity_min", 0.8, true)]
    [TestCase("r_peak_positive_predictivity_min", 0.81, false)]
    [TestCase("r_peak_timing_bias_ms_max", 4, true)]
    [TestCase("r_peak_timing_bias_ms_max", 3.999, false)]
    [TestCase("r_peak_timing_sd_ms_max", 0, true)]
    [TestCase("r_peak_timing_p95_ms_max", 4.1, true)]
    [TestCase("r_peak_timing_p95_ms_max", 3.9, false)]
    public void Judge_DefinedFigure_MetAtTheLimit(string key, double limit, bool isMet)
    {
        RequirementResult result = RequirementResult.Judge([(Definition(key), limit)], s_report).Single();

        Assert.That(result.IsMet, Is.EqualTo(isMet), $"{result.Actual}");
        Assert.That(result.Subject, Is.EqualTo("ecg r_peak"));
        Assert.That(result.Limit, Is.EqualTo(limit));
    }

    // Ten readings a second apart from 10.2 s on, the last standing for 5 s: 14 of the 31 s from 8 to 39 s; all within the gate.
    [TestCase("arrival_time_available_share_min", 14.0 / 31, true)]
    [TestCase("arrival_time_available_share_min", 0.46, false)]
    [TestCase("arrival_time_wrong_share_max", 0, true)]
    [TestCase("arrival_time_first_reading_s_max", 10.2, true)]
    [TestCase("arrival_time_first_reading_s_max", 10.1, false)]
    [TestCase("heart_rate_available_share_min", 14.0 / 31, true)]
    [TestCase("spo2_bias_points_max", 1, true)]
    [TestCase("spo2_bias_points_max", 0.99, false)]
    [TestCase("spo2_rms_points_max", 1, true)]
    [TestCase("spo2_first_reading_s_max", 10.2, true)]
    [TestCase("systolic_bias_mmhg_max", 4, true)]
    [TestCase("systolic_bias_mmhg_max", 3.9, false)]
    [TestCase("diastolic_bias_mmhg_max", 2, true)]
    [TestCase("diastolic_sd_mmhg_max", 0, true)]
    public void Judge_Readings_MetAtTheLimit(string key, double limit, bool isMet)
    {
        RequirementDefinition definition = Definition(key);
        RequirementResult result = RequirementResult.Judge([(definition, limit)], Readings(definition.Kind)).Single();

        Assert.That(result.IsMet, Is.EqualTo(isMet), $"{result.Actual}");
    }

    // By hand: Wilson's interval of 8 of 10 is 0.49 to 0.94 (Wilson 1927), so two decimals; percentiles one; shares of time three, times one. What lies between the limit
    // and its own rounding has more.
    [TestCase("r_peak_sensitivity_min", 0.5, "0.80")]
    [TestCase("r_peak_positive_predictivity_min", 0.9, "0.80")]
    [TestCase("r_peak_timing_p95_ms_max", 9, "4.0")]
    [TestCase("r_peak_timing_bias_ms_max", 9, "-4")]
    [TestCase("arrival_time_available_share_min", 0.4, "0.452")]
    [TestCase("arrival_time_available_share_min", 0.452, "0.4516")]
    [TestCase("arrival_time_available_share_min", 0.46, "0.452")]
    [TestCase("arrival_time_first_reading_s_max", 20, "10.2")]
    [TestCase("arrival_time_wrong_share_max", 0.5, "0.00")]
    [TestCase("systolic_bias_mmhg_max", 9, "4")]
    [TestCase("diastolic_bias_mmhg_max", 1e-6, "-2")]
    public void ToldActual_Figure_HasTheDigitsThatMeanSomething(string key, double limit, string told)
    {
        RequirementDefinition definition = Definition(key);
        ScoreReport report = key.StartsWith("r_peak", StringComparison.Ordinal) ? s_report : Readings(definition.Kind);

        Assert.That(RequirementResult.Judge([(definition, limit)], report).Single().ToldActual, Is.EqualTo(told));
    }

    // Mean of a hundred errors of SD 1: ±0.196, so two decimals of bias and SD; of ten thousand ±0.0196, so three.
    [TestCase(100, "0.30", "1.01")]
    [TestCase(10_000, "0.300", "1.000")]
    public void ToldActual_MeanAndSpread_HaveMoreDigitsOfMoreEvents(int count, string bias, string sd)
    {
        var truth = new List<TruthEvent>();
        var marks = new List<TimedMark>();
        for (int i = 0; i < count; i++)
        {
            long at = (10 + i) * Second;
            long mark = at + 300_000 + (i % 2 == 0 ? 1_000_000 : -1_000_000);
            truth.Add(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, at, double.NaN, i, BeatClass.Normal, TruthFlags.None));
            marks.Add(new TimedMark { Channel = ChannelName.Ecg, Kind = MarkKind.RPeak, TimeNs = mark, EmittedTimeNs = mark });
        }

        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg)], (count + 12) * Second, new ScoringOptions { ExpectedRows = [new(ChannelName.Ecg, MarkKind.RPeak)], LeadInNs = 8 * Second });
        var told = RequirementResult.Judge([(Definition("r_peak_timing_bias_ms_max"), 9), (Definition("r_peak_timing_sd_ms_max"), 9)], scorer.ScoreAll(truth, marks));

        Assert.That(told.Select(r => r.ToldActual), Is.EqualTo(new[] { bias, sd }));
    }

    [Test]
    public void Judge_FiguresOfNothing_AreUndefinedAndNotMet()
    {
        ScoreReport nothing = Report(found: 0, extra: 0, channels: [ChannelName.Ecg]);

        Assert.That(RequirementResult.Judge([(Definition("r_peak_sensitivity_min"), 0)], nothing).Single().IsMet, "0 of 10 is 0");
        foreach (string key in new[] { "r_peak_positive_predictivity_min", "r_peak_timing_bias_ms_max", "r_peak_timing_sd_ms_max", "r_peak_timing_p95_ms_max" })
        {
            RequirementResult result = RequirementResult.Judge([(Definition(key), key.EndsWith("min", StringComparison.Ordinal) ? 0 : 1e6)], nothing).Single();
            Assert.That((result.Actual, result.IsMet), Is.EqualTo(((double?)null, false)), key);
        }
    }

    [TestCase("arrival_time_bias_ms_max", "arrival_time_ms")]
    [TestCase("heart_rate_rms_bpm_max", "heart_rate_bpm")]
    [TestCase("pulse_foot_tangent_sensitivity_min", "pulse_foot_tangent")]
    public void Judge_KindThatNobodyGave_IsOneRowNotMet(string key, string subject)
    {
        RequirementResult result = RequirementResult.Judge([(Definition(key), 0)], s_report).Single();

        Assert.That((result.Subject, result.Actual, result.IsMet), Is.EqualTo((subject, (double?)null, false)));
    }

    [Test]
    public void Judge_KindInTwoChannels_JudgesBoth()
    {
        ScoreReport two = Report(found: 8, extra: 2, channels: [ChannelName.Red, ChannelName.Infrared]);

        var results = RequirementResult.Judge([(Definition("pulse_foot_tangent_sensitivity_min"), 0.5)], two);

        Assert.That(results.Select(r => r.Subject), Is.EqualTo(new[] { "red pulse_foot_tangent", "infrared pulse_foot_tangent" }));
    }

    [Test]
    public void Judge_EveryRequirement_HasAFigure()
    {
        // A figure that the rules forgot would be undefined for ever, and its requirement never met.
        foreach (RequirementDefinition definition in RequirementKeys.All)
        {
            bool isReading = definition.Kind.Info().Sort == MarkSort.Reading;
            ScoreReport report = isReading ? Readings(definition.Kind) : Report(8, 2, [definition.Kind == MarkKind.RPeak ? ChannelName.Ecg : ChannelName.Infrared]);

            Assert.That(RequirementResult.Judge([(definition, 1)], report).Single().Actual, Is.Not.Null, definition.Key.Name);
        }
    }

    private static RequirementDefinition Definition(string key) => RequirementKeys.All.Single(r => r.Key.Key == key);

    private static ScoreReport Report(int found, int extra, ChannelName[] channels)
    {
        var rows = channels.Select(c => new ExpectedRow(c, Kind(c))).ToList();
        var scorer = new Scorer(channels.Select(c => new ChannelDelay(c)), 40 * Second, new ScoringOptions { ExpectedRows = rows });
        var truth = new List<TruthEvent>();
        var marks = new List<TimedMark>();
        foreach (ChannelName channel in channels)
        {
            for (int i = 0; i < 10; i++)
            {
                long at = (10 + i) * Second;
                truth.Add(new TruthEvent(channel, Kind(channel), at, double.NaN, i, BeatClass.Normal, TruthFlags.None));
                if (i < found)
                {
                    marks.Add(new TimedMark { Channel = channel, Kind = Kind(channel), TimeNs = at - 4_000_000, EmittedTimeNs = at });
                }

                if (i < extra)
                {
                    marks.Add(new TimedMark { Channel = channel, Kind = Kind(channel), TimeNs = at + (Second / 2), EmittedTimeNs = at + (Second / 2) });
                }
            }
        }

        return scorer.ScoreAll(truth.OrderBy(t => t.TimeNs), marks.OrderBy(m => m.EmittedTimeNs));
    }

    private static ScoreReport Readings(MarkKind kind)
    {
        bool isRate = kind == MarkKind.HeartRateBpm;
        ChannelName channel = isRate ? ChannelName.Ecg : ChannelName.Infrared;
        ChannelDelay[] channels = [new(ChannelName.Ecg), new(ChannelName.Infrared)];
        var scorer = new Scorer(channels, 40 * Second, new ScoringOptions
        {
            ExpectedRows = [new(ChannelName.Ecg, MarkKind.RPeak), new(ChannelName.Infrared, MarkKind.PulseFootTangent)],
        });
        var truth = new List<TruthEvent>();
        var marks = new List<TimedMark>();
        for (int i = 0; i < 10; i++)
        {
            long r = (10 + i) * Second;
            long foot = r + 200_000_000;
            truth.Add(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, r, 1, i, BeatClass.Normal, TruthFlags.None));
            truth.Add(new TruthEvent(ChannelName.Ecg, MarkKind.HeartRateBpm, r, 60, i, BeatClass.Normal, TruthFlags.None));
            truth.Add(new TruthEvent(ChannelName.Infrared, MarkKind.PulseFootTangent, foot, double.NaN, i, BeatClass.Normal, TruthFlags.None));
            truth.Add(new TruthEvent(ChannelName.Infrared, MarkKind.PatMs, foot, 200, i, BeatClass.Normal, TruthFlags.None));
            truth.Add(new TruthEvent(ChannelName.Infrared, MarkKind.Spo2Percent, r, 97, i, BeatClass.Normal, TruthFlags.None));
            truth.Add(new TruthEvent(ChannelName.Infrared, MarkKind.SystolicMmhg, r, 120, i, BeatClass.Normal, TruthFlags.None));
            truth.Add(new TruthEvent(ChannelName.Infrared, MarkKind.DiastolicMmhg, r, 80, i, BeatClass.Normal, TruthFlags.None));
            marks.Add(new TimedMark
            {
                Channel = channel, Kind = kind, TimeNs = isRate ? r : foot, Value = s_values[kind], PairedTimeNs = isRate ? null : r,
                WindowBeginNs = kind == MarkKind.ArrivalTimeMs ? null : r - Second, EmittedTimeNs = foot,
            });
        }

        return scorer.ScoreAll(truth, marks);
    }

    private static MarkKind Kind(ChannelName channel) => channel == ChannelName.Ecg ? MarkKind.RPeak : MarkKind.PulseFootTangent;
}
