// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Xml.Linq;
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Tests;

public class ErrorFigureTests
{
    [Test]
    public void Write_ThreeKinds_PrintsTheFiguresThatItWasGiven()
    {
        string[] texts = Picture.Texts(Picture.Of(Samples.ThreeErrors(), FigureFormat.Svg));
        Assert.That(texts, Is.SupersetOf(new[]
        {
            "R peak", "n 72 · bias +0.40 ms", "SD 1.20 ms · p95 |error| 2.80 ms",
            "n 71 · bias -2.10 ms", "detected minus true (ms); events per 0.2 ms", "bias", "bias ± SD",
        }));
    }

    [Test]
    public void Write_ThreeKinds_DrawsBarsAndLines()
    {
        using SKBitmap picture = Picture.Decode(Picture.Of(Samples.ThreeErrors()));
        Assert.That(picture.Width, Is.EqualTo(1600));
        Assert.That(Picture.Pixels(picture, Ink.Bar), Has.Count.GreaterThan(20_000));
        Assert.That(Picture.Pixels(picture, Ink.Detected), Has.Count.GreaterThan(3 * 300));
        Assert.That(Picture.Pixels(picture, Ink.Truth), Has.Count.GreaterThan(6 * 100));
    }

    [Test]
    public void Write_NoErrors_SaysSo()
    {
        string[] texts = Picture.Texts(Picture.Of([ErrorPanel.FromErrors("R peak", [], default)], FigureFormat.Svg));
        Assert.That(texts, Is.SupersetOf(new[] { "R peak", "n 0", "no data" }));
    }

    [Test]
    public void Write_OneError_CountsInWholeNumbers()
    {
        string[] texts = Picture.Texts(Picture.Of([ErrorPanel.FromErrors("R peak", [30], new ErrorSummary(1, 30, double.NaN, 30))], FigureFormat.Svg));
        Assert.That(texts, Has.Member("1").And.No.Member("0.5"));
        Assert.That(texts, Has.Member("SD undefined · p95 |error| 30.00 ms"));
    }

    // Three panels in a row leave each 405 pixels from 116, 637 and 1158 on, whatever stands in them.
    [TestCase("ecg: r peak")]
    [TestCase("infrared: pulse foot by its second derivative")]
    [TestCase("infrared: a kind of event with a name that is longer than any that there is, and then some more of it")]
    public void Write_AnyName_StaysOverItsPanel(string title)
    {
        ErrorPanel panel = Samples.Errors(title, 0, 1, 10) with { BeyondCount = 1234567, Summary = new ErrorSummary(12345678, -1234.56, 12345.67, 123456.78) };
        XElement[] texts = [.. Picture.Xml(Picture.Of([panel, panel, panel], FigureFormat.Svg)).Descendants().Where(e => e.Name.LocalName == "text" && float.Parse(e.Attribute("y")!.Value, CultureInfo.InvariantCulture) is > 62 and < 174)];
        Assert.That(texts, Has.Length.EqualTo(9));
        foreach (XElement text in texts)
        {
            float left = float.Parse(text.Attribute("x")!.Value, CultureInfo.InvariantCulture);
            Assert.That(new[] { 116f, 637, 1158 }, Has.Some.EqualTo(left).Within(1));
            Assert.That(float.Parse(text.Attribute("textLength")!.Value, CultureInfo.InvariantCulture), Is.LessThanOrEqualTo(406), text.Value);
        }

        Assert.That(texts[0].Value, Is.EqualTo(title).Or.EndsWith("…"));
        Assert.That(texts[1].Value, Does.Contain("(1234567 beyond the axis)"));
    }

    [TestCase("arrival_time_ms", "ms", "arrival time")]
    [TestCase("systolic_sd_mmhg", "mmHg", "systolic sd")]
    [TestCase("spo2_percent", "%", "spo2")]
    [TestCase("r_peak", "", "r peak")]
    [TestCase("frames", "s", "frames")]
    public void WithoutUnit_Name_ReadsWithoutTheUnitAtItsEnd(string name, string unit, string words) =>
        Assert.That(Words.WithoutUnit(name, unit), Is.EqualTo(words));

    [TestCase(0)]
    [TestCase(10)]
    public void Write_WrongNumberOfPanels_IsRefused(int count)
    {
        ErrorPanel[] panels = [.. Enumerable.Repeat(Samples.Errors("R", 0, 1, 10), count)];
        Assert.That(() => Picture.Of(panels), Throws.ArgumentException.With.Message.Contains("1 to 9"));
    }

    [Test]
    public void Write_BinsWithoutWidth_AreRefused()
    {
        ErrorPanel panel = Samples.Errors("R peak", 0, 1, 10) with { BinWidthMs = 0 };
        Assert.That(() => Picture.Of([panel]), Throws.ArgumentException.With.Message.Contains("\"R peak\""));
    }

    // Half-open bins of 0.1 ms: -0.05 belongs to [-0.1, 0), 0.0 to [0, 0.1), 0.25 to [0.2, 0.3). Worked out by hand.
    [Test]
    public void FromErrors_FewErrors_FallIntoTheirBins()
    {
        ErrorPanel panel = ErrorPanel.FromErrors("R", [-0.05, 0.0, 0.05, 0.25, double.NaN], new ErrorSummary(4, 0, 0, 0));
        Assert.That(panel.FirstBinMs, Is.EqualTo(-0.1).Within(1e-12));
        Assert.That(panel.Counts, Is.EqualTo(new long[] { 1, 2, 0, 1 }));
    }

    [Test]
    public void FromErrors_HugeSpread_KeepsTheTableSmallAndLosesNone()
    {
        ErrorPanel panel = ErrorPanel.FromErrors("R", [-1e9, 0, 1e9], new ErrorSummary(3, 0, 0, 0));
        Assert.That(panel.Counts.Sum(), Is.EqualTo(3));
        Assert.That(panel.Counts, Has.Length.LessThan(1 << 21));
    }

    [TestCase(0.1, 3)]
    [TestCase(0.1, 1000)]
    [TestCase(1.0, 77)]
    public void BarsOf_AnyBins_KeepEveryCountAndAtMostFiftyBars(double widthMs, int bins)
    {
        long[] counts = [.. Enumerable.Range(1, bins).Select(i => (long)(i % 7))];
        Bars bars = Bars.Of(-4.2, widthMs, counts);
        Assert.That(bars.Heights.Sum(), Is.EqualTo(counts.Sum()));
        Assert.That(bars.Heights, Has.Length.LessThanOrEqualTo(50));
        Assert.That(bars.WidthMs, Is.GreaterThanOrEqualTo(widthMs));
    }
}
