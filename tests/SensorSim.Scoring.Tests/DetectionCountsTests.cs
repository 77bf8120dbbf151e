// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Tests;

public class DetectionCountsTests
{
    // Worked by hand after the two ways of pooling of ANSI/AAMI EC57 (definitions from memory).
    private static readonly DetectionCounts[] s_records = [new(990, 10, 5), new(80, 20, 10)];

    [Test]
    public void Gross_TwoRecords_PoolsCounts()
    {
        DetectionCounts gross = DetectionCounts.Gross(s_records);
        Assert.That(gross.Sensitivity, Is.EqualTo(0.9727).Within(0.00005));
        Assert.That(gross.PositivePredictivity, Is.EqualTo(0.9862).Within(0.00005));
    }

    [Test]
    public void Average_TwoRecords_WeighsRecordsAlike()
    {
        Assert.That(DetectionCounts.Average(s_records, r => r.Sensitivity), Is.EqualTo(0.8950).Within(0.00005));
        Assert.That(DetectionCounts.Average(s_records, r => r.PositivePredictivity), Is.EqualTo(0.9419).Within(0.00005));
    }

    [Test]
    public void F1_Counts_IsTheHarmonicMean()
    {
        DetectionCounts counts = s_records[1];
        double se = counts.Sensitivity!.Value;
        double pp = counts.PositivePredictivity!.Value;
        Assert.That(counts.F1, Is.EqualTo(2 * se * pp / (se + pp)).Within(1e-15));
    }

    [Test]
    public void Figures_NothingThere_AreNullAndNotNaN()
    {
        DetectionCounts none = default;
        Assert.That((none.Sensitivity, none.PositivePredictivity, none.F1), Is.EqualTo(((double?)null, (double?)null, (double?)null)));
        Assert.That(DetectionCounts.Average([none], r => r.Sensitivity), Is.Null);
    }
}
