// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Comparisons;

[TestFixture]
public sealed class ComparedColumnsTests
{
    /// <summary>Every figure from summed columns is the pooled one, which adds whole numbers.</summary>
    [TestCaseSource(nameof(Definitions))]
    public void Figure_OfSummedColumns_IsThatOfThePool(RequirementDefinition definition)
    {
        var columns = new ComparedColumns(new ComparedFigure(definition, ChannelName.Ecg, null));
        var pool = new RunPool(definition, ChannelName.Ecg);
        var sums = new double[ComparedColumns.Count];
        var values = new double[ComparedColumns.Count];
        for (int run = 1; run <= 5; run++)
        {
            RunRow row = Row(run, definition.Kind);
            pool.Add(row);
            columns.Read(row, values);
            for (int c = 0; c < sums.Length; c++)
            {
                sums[c] += values[c];
            }
        }

        Assert.That(pool.Figure, Is.Not.Null);
        Assert.That(columns.Figure(sums), Is.EqualTo(pool.Figure!.Value).Within(1e-12).Percent);
    }

    [TestCaseSource(nameof(Definitions))]
    public void Figure_OfARunWithoutRows_IsThatOfThePool(RequirementDefinition definition)
    {
        var columns = new ComparedColumns(new ComparedFigure(definition, ChannelName.Ecg, null));
        RunRow row = Row(1, definition.Kind) with { Events = [], Readings = [] };
        var values = new double[ComparedColumns.Count];
        columns.Read(row, values);
        double figure = columns.Figure(values);
        Assert.That(double.IsNaN(figure) ? (double?)null : figure, Is.EqualTo(new RequirementOnRow(definition, 1, ChannelName.Ecg).FigureOf(row)));
    }

    private static IEnumerable<TestCaseData> Definitions() => RequirementKeys.All.Select(d => new TestCaseData(d).SetArgDisplayNames(d.Key.Key));

    private static bool IsEvent(MarkKind kind) => kind is MarkKind.RPeak or MarkKind.PulseFootTangent;

    internal static RunRow Row(int run, MarkKind kind) => new()
    {
        Run = run,
        Verdict = Verdict.Answered,
        VerdictReason = "",
        SampleCount = 10,
        MarkCount = 11,
        ScoredNs = 51_000_000_001,
        Events = !IsEvent(kind) ? [] :
        [
            new EventRow
            {
                Channel = ChannelName.Ecg,
                Kind = kind,
                Counts = new DetectionCounts(50 + run, run, 2 * run),
                TimedCount = 50 + run,
                TimingSumNs = -7_000_001 * run,
                TimingSquaresNs = (Int128)9_000_000_000_000_001 * run,
                TimingP95Ns = 1_000_000 * run,
                UnusableTruth = 1,
                UnusableDetections = 2,
            },
        ],
        Readings = IsEvent(kind) ? [] :
        [
            new ReadingRow
            {
                Channel = ChannelName.Ecg,
                Kind = kind,
                Count = 40 + run,
                SumMicro = -3_000_001 * run,
                SquaresMicro = (Int128)8_000_000_000_000_003 * run,
                OffCount = run,
                NothingThereCount = 1,
                InUnusableCount = 2,
                FirstReadingNs = 4_000_000_000 + run,
                UsableNs = 50_000_000_000 + run,
                AvailableNs = 45_000_000_000 - run,
                LatencySumNs = 123,
            },
        ],
    };
}
