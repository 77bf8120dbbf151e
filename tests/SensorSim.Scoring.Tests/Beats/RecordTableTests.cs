// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Tests.Beats;

/// <summary>Record table and classes. Check value: gross pools the counts, average the ratios; worked by hand.</summary>
public class RecordTableTests
{
    [Test]
    public void Totals_TwoRecords_AreGrossAndAverage()
    {
        var table = new RecordTable();
        table.Add("A", new DetectionCounts(990, 10, 5));
        table.Add("B", new DetectionCounts(80, 20, 10));
        table.Add("C", new DetectionCounts(0, 50, 0), "electrode off throughout");
        Assert.That(table.Gross.Sensitivity, Is.EqualTo(0.9727).Within(5e-5), "1070 / 1100");
        Assert.That(table.Gross.PositivePredictivity, Is.EqualTo(0.9862).Within(5e-5), "1070 / 1085");
        Assert.That(table.AverageSensitivity, Is.EqualTo(0.8950).Within(1e-9));
        Assert.That(table.AveragePositivePredictivity, Is.EqualTo((0.994975 + 0.888889) / 2).Within(1e-6));
        Assert.That((table.IncludedCount, table.Rows.Count), Is.EqualTo((2, 3)));
        Assert.That(() => table.Add("A", default), Throws.ArgumentException);
    }

    // The published mapping (EC57, from memory).
    [TestCase(BeatClass.Normal, HeartBeatClass.Normal)]
    [TestCase(BeatClass.AtrialArrhythmia, HeartBeatClass.Normal)]
    [TestCase(BeatClass.JunctionalEscape, HeartBeatClass.Normal)]
    [TestCase(BeatClass.AtrialPremature, HeartBeatClass.SupraventricularEctopic)]
    [TestCase(BeatClass.VentricularPremature, HeartBeatClass.VentricularEctopic)]
    [TestCase(BeatClass.VentricularRun, HeartBeatClass.VentricularEctopic)]
    [TestCase(BeatClass.VentricularEscape, HeartBeatClass.VentricularEctopic)]
    [TestCase(BeatClass.Paced, HeartBeatClass.Unknown)]
    [TestCase(BeatClass.Wide, HeartBeatClass.Unknown)]
    [TestCase(BeatClass.None, HeartBeatClass.Unknown)]
    public void Of_EveryClassOfTruth_IsThePublishedClass(BeatClass label, HeartBeatClass expected) =>
        Assert.That(HeartBeatClasses.Of(label), Is.EqualTo(expected));
}
