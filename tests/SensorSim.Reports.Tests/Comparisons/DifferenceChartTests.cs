// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Xml.Linq;
using SensorSim.Reports.Comparisons;
using SensorSim.Reports.Figures;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Comparisons;

namespace SensorSim.Reports.Tests.Comparisons;

/// <summary>The figure of all differences: nothing is cut off or runs into another column, and a column has one size.</summary>
[TestFixture]
public sealed class DifferenceChartTests
{
    private static readonly byte[] s_svg = Chart(
        Row("r_peak_sensitivity_min", -0.031501, -0.041964, -0.021694, DifferenceVerdict.Worse),
        Row("heart_rate_rms_bpm_max", -1.1385E-05, -9.8945E-05, 0.00010317, DifferenceVerdict.NoDifferenceShown),
        Row("r_peak_timing_sd_ms_max", -1234.6, -3755.1, 508.78, DifferenceVerdict.NoDifferenceShown),
        Row("pulse_foot_tangent_positive_predictivity_min", 1e-9, -2e-9, 4e-9, DifferenceVerdict.NoDifferenceShown),
        Row("arrival_time_bias_ms_max", null, 0, 0, DifferenceVerdict.Unknown));

    [Test]
    public void Bytes_Texts_AreWholeAndTell() => Assert.That(Picture.Texts(s_svg), Is.SupersetOf(new[]
    {
        "-0.032 (-0.042 to -0.022)", "worse", "-0.00001 (-0.00010 to 0.00010)", "no difference shown", "-1235 (-3755 to 509)", "undefined", "cannot be told",
    }).And.None.Contains("…"));

    [Test]
    public void Bytes_Columns_DoNotTouchAndHaveOneSize()
    {
        XElement[] texts = [.. Picture.Xml(s_svg).Descendants().Where(e => e.Name.LocalName == "text")];
        XElement[][] rows = [.. texts.Where(t => Number(t, "y") > 60).GroupBy(t => Number(t, "y")).Select(g => g.OrderBy(Left).ToArray()).Where(r => r.Length == 3).Take(5)];
        Assert.That(rows, Has.Length.EqualTo(5));
        foreach (XElement[] row in rows)
        {
            Assert.That(Right(row[0]), Is.LessThan(520), "left of the bars");
            Assert.That(Right(row[1]), Is.LessThan(Left(row[2])), row[1].Value);
            Assert.That(Right(row[2]), Is.LessThanOrEqualTo(1600), row[2].Value);
        }

        for (int column = 0; column < 3; column++)
        {
            Assert.That(rows.Select(r => Number(r[column], "font-size")).Distinct().ToArray(), Has.Length.EqualTo(1), $"column {column}");
        }
    }

    private static byte[] Chart(params PairedDifference[] rows) => new DifferenceChart("t", rows) { Title = "t" }.Bytes(FigureFormat.Svg);

    private static PairedDifference Row(string key, double? difference, double low, double high, DifferenceVerdict verdict) => new()
    {
        Figure = new ComparedFigure(RequirementKeys.All.First(r => r.Key.Key == key), ChannelName.Infrared, null),
        Point = null,
        First = 1,
        Second = 1,
        Difference = difference,
        Interval = difference is null ? null : new Interval(low, high),
        SwapP = 0.5,
        Verdict = verdict,
        RunCount = 1,
        FirstEventCount = 1,
        SecondEventCount = 1,
        Met = null,
    };

    private static double Left(XElement text) => text.Attribute("text-anchor")?.Value == "end" ? Number(text, "x") - Number(text, "textLength") : Number(text, "x");

    private static double Right(XElement text) => Left(text) + Number(text, "textLength");

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
