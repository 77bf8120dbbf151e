// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Rows;

/// <summary>Figures of pooled runs, worked by hand.</summary>
[TestFixture]
public sealed class RunPoolTests
{
    private const long Second = 1_000_000_000;

    // 40 of 50 s and 10 of 50 s.
    [TestCase("heart_rate_available_share_min", 0.5, true)]
    [TestCase("heart_rate_available_share_min", 0.51, false)]

    // (1 + 2 + 1) of (10 + 2 + 1) and none of 7.
    [TestCase("heart_rate_wrong_share_max", 0.2, true)]
    [TestCase("heart_rate_wrong_share_max", 0.19, false)]

    // 5 s and 9 s.
    [TestCase("heart_rate_first_reading_s_max", 7, true)]
    [TestCase("heart_rate_first_reading_s_max", 6.9, false)]
    public void Figure_TwoRuns_PoolsSecondsReadingsAndRuns(string key, double limit, bool isMet)
    {
        var requirement = new RequirementOnRow(Definition(key), limit, ChannelName.Ecg);
        var pool = new RunPool(requirement.Definition, requirement.Channel);
        pool.Add(Row(Reading(count: 10, off: 1, nothing: 2, unusable: 1, firstNs: 5 * Second, usableNs: 50 * Second, availableNs: 40 * Second)));
        pool.Add(Row(Reading(count: 7, off: 0, nothing: 0, unusable: 0, firstNs: 9 * Second, usableNs: 50 * Second, availableNs: 10 * Second)));

        Assert.That(requirement.IsMetBy(pool.Figure), Is.EqualTo(isMet), $"{pool.Figure}");
    }

    [Test]
    public void Figure_RunWithoutAnyReading_CountsItsScoredTimeAndHasNoFirst()
    {
        foreach ((string key, double? expected) in new (string, double?)[]
        {
            ("heart_rate_available_share_min", 0.4), ("heart_rate_wrong_share_max", 0.1), ("heart_rate_first_reading_s_max", null),
        })
        {
            var pool = new RunPool(Definition(key), ChannelName.Ecg);
            pool.Add(Row(Reading(count: 10, off: 1, nothing: 0, unusable: 0, firstNs: 5 * Second, usableNs: 50 * Second, availableNs: 40 * Second)));
            pool.Add(Row());

            Assert.That(pool.Figure, Is.EqualTo(expected).Within(1e-12), key);
        }
    }

    // Errors of 1 and 3 points: bias 2, root mean square √5, standard deviation √2.
    [TestCase("spo2_bias_points_max", 2)]
    [TestCase("spo2_rms_points_max", 2.2360679775)]
    [TestCase("spo2_sd_points_max", 1.4142135624)]
    public void Figure_Saturation_IsThatOfTheErrors(string key, double expected)
    {
        var pool = new RunPool(Definition(key), ChannelName.Infrared);
        foreach (long error in new[] { 1_000_000L, 3_000_000L })
        {
            pool.Add(Row(Reading(count: 1, off: 0, nothing: 0, unusable: 0, firstNs: 0, usableNs: 1, availableNs: 1) with
            {
                Channel = ChannelName.Infrared, Kind = MarkKind.Spo2Percent, SumMicro = error, SquaresMicro = (Int128)error * error,
            }));
        }

        Assert.That(pool.Figure, Is.EqualTo(expected).Within(1e-9));
    }

    [Test]
    public void IsLeast_EveryRequirement_GoesByItsName()
    {
        foreach (RequirementDefinition definition in RequirementKeys.All)
        {
            bool isLeast = definition.Key.Name.EndsWith("_min", StringComparison.Ordinal);
            Assert.That(new RequirementOnRow(definition, 1, ChannelName.Ecg).IsLeast, Is.EqualTo(isLeast), definition.Key.Name);
            Assert.That(isLeast || definition.Key.Name.EndsWith("_max", StringComparison.Ordinal), definition.Key.Name);
        }
    }

    private static RequirementDefinition Definition(string key) => RequirementKeys.All.Single(r => r.Key.Key == key);

    private static RunRow Row(params ReadingRow[] readings) => new()
    {
        Run = 0, Verdict = Verdict.Answered, VerdictReason = "", SampleCount = 1, MarkCount = 1, ScoredNs = 50 * Second, Events = [], Readings = readings,
    };

    private static ReadingRow Reading(long count, long off, long nothing, long unusable, long firstNs, long usableNs, long availableNs) => new()
    {
        Channel = ChannelName.Ecg, Kind = MarkKind.HeartRateBpm, Count = count, SumMicro = 0, SquaresMicro = 0, OffCount = off, NothingThereCount = nothing,
        InUnusableCount = unusable, FirstReadingNs = firstNs, UsableNs = usableNs, AvailableNs = availableNs, LatencySumNs = 0,
    };
}
