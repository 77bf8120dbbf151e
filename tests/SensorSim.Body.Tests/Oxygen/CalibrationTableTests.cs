// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Body.Oxygen;

namespace SensorSim.Body.Tests.Oxygen;

/// <summary>Calibration tables.</summary>
public sealed class CalibrationTableTests
{
    // R 0.4 -> 100, 0.6 -> 95, 1.0 -> 85, 1.6 -> 70: Webster 1997 (from memory).
    [TestCase(0.4, 100)]
    [TestCase(0.6, 95)]
    [TestCase(1.0, 85)]
    [TestCase(1.6, 70)]
    [TestCase(4.4, 0)]
    public void Textbook_Line_GoesThroughItsPoints(double ratio, double percent)
    {
        Assert.That(CalibrationTable.Textbook.Percent(ratio), Is.EqualTo(percent).Within(1e-12));
        Assert.That(CalibrationTable.Textbook.Ratio(percent), Is.EqualTo(ratio).Within(1e-12));
    }

    [Test]
    public void Read_ThreePairs_InterpolatesAndHoldsItsEnds()
    {
        Assert.That(CalibrationTable.Read(" 0.40:100 ,0.8 : 90, 1.6:60.5", out CalibrationTable table), Is.Empty);
        Assert.That((table.HighestPercent, table.LowestPercent), Is.EqualTo((100.0, 60.5)));
        Assert.That(table.Percent(0.6), Is.EqualTo(95).Within(1e-12));
        Assert.That(table.Percent(1.2), Is.EqualTo(75.25).Within(1e-12));
        Assert.That((table.Percent(0.1), table.Percent(3)), Is.EqualTo((100.0, 60.5)));
        Assert.That(table.Ratio(75.25), Is.EqualTo(1.2).Within(1e-12));
        Assert.That((table.Ratio(100), table.Ratio(10)), Is.EqualTo((0.4, 1.6)));
    }

    [Test]
    public void Read_Empty_IsTheTextbookLine()
    {
        Assert.That(CalibrationTable.Read("  ", out CalibrationTable table), Is.Empty);
        Assert.That(table, Is.SameAs(CalibrationTable.Textbook));
    }

    [Test]
    public void Read_AnyTable_GivesEachSaturationBack() =>
        Gen.Select(Gen.Int[1, 200], Gen.Int[1, 200], Gen.Int[1, 200], Gen.Double[0, 1]).Sample(
            (a, b, c, u) =>
            {
                string text = FormattableString.Invariant($"0.3:100, 0.{300 + a}:80, 0.{300 + a + b}:60.25, 0.{300 + a + b + c}:30");
                Assert.That(CalibrationTable.Read(text, out CalibrationTable table), Is.Empty);
                double percent = 30 + (70 * u);
                Assert.That(table.Percent(table.Ratio(percent)), Is.EqualTo(percent).Within(1e-9));
            },
            iter: 500);

    [TestCase("0.4:100", "2 to 40 pairs")]
    [TestCase("0.4:100, 0.6", "\"0.6\" is no pair")]
    [TestCase("0.4:100, 0.6:95:90", "\"0.6:95:90\" is no pair")]
    [TestCase("0.4:100, 0,6:95", "\"0\" is no pair")]
    [TestCase("0.4:100, -0.6:95", "\"-0.6:95\" is no pair")]
    [TestCase("0.4:100, 6e-1:95", "\"6e-1:95\" is no pair")]
    [TestCase("0.4:100, .6:95", "\".6:95\" is no pair")]
    [TestCase("0.4:100, 6.:95", "\"6.:95\" is no pair")]
    [TestCase("0.4:100, ", "\"\" is no pair")]
    [TestCase("0.4:100, 0.4:95", "greater than the one before")]
    [TestCase("0.4:95, 0.6:95", "less than the one before")]
    [TestCase("0.05:100, 0.6:95", "outside 0.1 to 5")]
    [TestCase("0.4:101, 0.6:95", "above 100")]
    public void Read_BadText_IsRefusedInOneSentence(string text, string says)
    {
        string sentence = CalibrationTable.Read(text, out _);
        Assert.That(sentence, Does.Contain(says));
        Assert.That(sentence, Does.Not.Contain("\n"));
    }
}
