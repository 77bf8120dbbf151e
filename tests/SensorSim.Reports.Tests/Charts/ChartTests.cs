// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Xml.Linq;
using SensorSim.Reports.Charts;
using SensorSim.Reports.Figures;
using SensorSim.Reports.StudyReports;
using SensorSim.Scoring.Statistics;
using SkiaSharp;

namespace SensorSim.Reports.Tests.Charts;

public class ChartTests
{
    private static readonly SKColor s_notMet = new(0xF4, 0xC9, 0xA4);

    private static LevelChart Levels(params (double Level, double? Figure, Interval? Interval)[] levels) => Levels(null, levels);

    private static LevelChart Levels(double? failure, (double Level, double? Figure, Interval? Interval)[] levels) => new(
        "A title",
        ["ours"],
        [
            new LevelPanel
            {
                Title = "timing SD (ms)",
                XTitle = "noise (mV)",
                Limits = [5],
                Series = [new LevelSeries { Detector = 0, Levels = levels, FailureLevel = failure, FailureInterval = failure is double f ? new Interval(f - 1, double.PositiveInfinity) : null }],
            },
        ]) { Title = "A title" };

    // What an axis shows stands over it; where its numbers are not evenly spaced that is said.
    [TestCase(0.99, 0.3, "↑ share of true events that are found, scale stretched near 0 and 1")]
    [TestCase(0.99, 0.95, "↑ share of true events that are found")]
    [TestCase(0.5, 0.3, "↑ share of true events that are found")]
    public void LevelChart_VerticalAxis_SaysWhatItShows(double limit, double lowest, string expected)
    {
        LevelPanel panel = new()
        {
            Title = "sensitivity",
            XTitle = "noise (mV)",
            YTitle = "share of true events that are found",
            IsShare = true,
            Limits = [limit],
            Series = [new LevelSeries { Detector = 0, Levels = [(0, lowest, null), (1, 1, null)] }],
        };
        Assert.That(Picture.Texts(new LevelChart("t", ["ours"], [panel]) { Title = "t" }.Bytes(FigureFormat.Svg)), Has.Member(expected));
    }

    // The signs of the first detector are the only circles: their heights must go with the figures, their places with the levels.
    [Test]
    public void LevelChart_Signs_StandAtLevelsAndFigures()
    {
        (double X, double Y)[] signs = Circles(Levels((0, 2, null), (1, 4, null), (4, 10, null)));
        Assert.That(signs, Has.Length.EqualTo(4), "three levels and the legend");
        (double X, double Y)[] own = signs[1..];
        Assert.That((own[2].X - own[1].X) / (own[1].X - own[0].X), Is.EqualTo(3).Within(0.01));
        Assert.That((own[1].Y - own[2].Y) / (own[0].Y - own[1].Y), Is.EqualTo(3).Within(0.01));
        Assert.That(own[0].Y, Is.GreaterThan(own[1].Y), "up is more");
    }

    [Test]
    public void LevelChart_FailurePoint_HasItsOwnLineUnderTheCurves()
    {
        (double X, double Y)[] signs = Circles(Levels(2, [(0, 2, null), (4, 10, null)]));
        (double X, double Y) failure = signs.MaxBy(s => s.Y);
        Assert.That(failure.X, Is.EqualTo((signs[1].X + signs[2].X) / 2).Within(0.5), "level 2 lies between 0 and 4");
        Assert.That(failure.Y, Is.GreaterThan(signs[1].Y + 5));
    }

    [Test]
    public void LevelChart_Undefined_SaysSo()
    {
        Assert.That(Picture.Texts(Levels((0, null, null)).Bytes(FigureFormat.Svg)), Has.Member("no figure is defined").And.Member("noise (mV)").And.Member("timing SD (ms)"));
    }

    [Test]
    public void LevelChart_ManyDetectors_NamesAllInsideThePage()
    {
        string[] labels = [.. Enumerable.Range(1, 9).Select(i => $"detector number {i} with a name that takes a good deal of room")];
        LevelSeries[] series = [.. labels.Select((_, i) => new LevelSeries { Detector = i, Levels = [(0, i, null), (1, i + 1, null)] })];
        LevelChart chart = new("t", labels, [new LevelPanel { Title = "f", XTitle = "x", Limits = [2], Series = series }]) { Title = "t" };
        byte[] svg = chart.Bytes(FigureFormat.Svg);
        Assert.That(Picture.Texts(svg), Is.SupersetOf(labels));
        foreach (XElement text in Picture.Xml(svg).Descendants().Where(e => e.Name.LocalName == "text"))
        {
            double right = Number(text, "x") + Number(text, "textLength");
            Assert.That(right, Is.LessThanOrEqualTo(1600), text.Value);
        }
    }

    [Test]
    public void HeatChart_Cells_HaveNumbersAndTheColourOfTheirVerdict()
    {
        HeatChart chart = Heat(new double?[,] { { 0.5, 0.991 }, { null, 0.25 } }, new[,] { { false, true }, { false, false } });
        string[] texts = Picture.Texts(chart.Bytes(FigureFormat.Svg));
        Assert.That(texts, Is.SupersetOf(new[] { "0.5", "0.991", "0.25", "–", "requirement met", "not met" }));
        using SKBitmap picture = Picture.Decode(chart.Bytes(FigureFormat.Png));

        // Upper right and lower left cell do not meet it: their colour is found there and in the legend, which is below.
        List<(int X, int Y)> notMet = Picture.Pixels(picture, s_notMet);
        Assert.That(notMet.Count(p => p.X > 900 && p.Y < 220), Is.GreaterThan(20000));
        Assert.That(notMet.Count(p => p.X < 800 && p.Y is > 220 and < 300), Is.GreaterThan(20000));
        Assert.That(notMet.Count(p => p.X > 900 && p.Y is > 230 and < 300), Is.Zero);
    }

    [Test]
    public void HeatChart_CellsTooSmallForNumbers_LeavesThemOut()
    {
        var figures = new double?[60, 60];
        var isMet = new bool[60, 60];
        for (int i = 0; i < 60; i++)
        {
            for (int j = 0; j < 60; j++)
            {
                figures[i, j] = 0.123;
            }
        }

        Assert.That(Picture.Texts(Heat(figures, isMet).Bytes(FigureFormat.Svg)), Has.No.Member("0.123"));
    }

    [Test]
    public void EffectChart_Bars_NameTheValuesAtTheirEnds()
    {
        EffectChart chart = new("t", [new EffectPanel("ours", false, 3, [5], [new EffectBar("noise (mV)", [("0.1", 3), ("0.7", 6), ("0.4", 4)]), new EffectBar("rate (bpm)", [("60", 3), ("90", 3)])])]) { Title = "t" };
        string[] texts = Picture.Texts(chart.Bytes(FigureFormat.Svg));
        Assert.That(texts, Has.Member("0.1").And.Member("0.7").And.Member("no difference").And.Member("noise (mV)"));
        Assert.That(texts, Has.No.Member("0.4").And.No.Member("60"));
    }

    [Test]
    public void AgreementChart_ManyPairs_DrawsSomeAndSaysSo()
    {
        AgreementPair[] pairs = [.. Enumerable.Range(0, 7000).Select(i => new AgreementPair(0, 60 + (i % 50), 61 + (i % 53)))];
        AgreementChart chart = new("t", [(new AgreementData { Title = "heart rate", Unit = "bpm", Pairs = pairs }, AgreementLimits.OfIndependent(pairs))]) { Title = "t" };
        byte[] svg = chart.Bytes(FigureFormat.Svg);
        Assert.That(Picture.Texts(svg), Has.Some.Contains("every third of 7000 pairs"));
        Assert.That(Circles(svg), Has.Length.EqualTo(2334));
    }

    [TestCase(21, "every 21st of")]
    [TestCase(22, "every 22nd of")]
    [TestCase(11, "every 11th of")]
    public void AgreementChart_ManyMorePairs_SaysWhichAreDrawn(int every, string expected)
    {
        AgreementPair[] pairs = [.. Enumerable.Range(0, every * AgreementChart.MostSigns).Select(i => new AgreementPair(0, 60 + (i % 50), 61 + (i % 53)))];
        AgreementChart chart = new("t", [(new AgreementData { Title = "heart rate", Unit = "bpm", Pairs = pairs }, null)]) { Title = "t" };
        Assert.That(Picture.Texts(chart.Bytes(FigureFormat.Svg)), Has.Some.StartsWith(expected));
    }

    // A title and what stands under it end where the frame of their panel does, numbers of the limits beside it.
    [TestCase(1)]
    [TestCase(4)]
    public void AgreementChart_LongTitles_EndWithTheFrame(int panels)
    {
        AgreementPair[] pairs = [.. Enumerable.Range(0, 50).Select(i => new AgreementPair(i % 5, 60 + i, 61 + i + (i % 3)))];
        AgreementData data = new()
        {
            Title = "infrared: arrival time, a detector whose name takes forty letters",
            Runs = "36 of 60 runs, points that meet the requirements",
            Unit = "ms",
            Pairs = pairs,
        };
        AgreementChart chart = new("t", [.. Enumerable.Repeat((data, AgreementLimits.OfIndependent(pairs)), panels)]) { Title = "t" };
        byte[] svg = chart.Bytes(FigureFormat.Svg);
        XElement[] frames = [.. Picture.Xml(svg).Descendants().Where(e => e.Name.LocalName == "rect" && e.Attribute("fill")?.Value == "none")];
        Assert.That(frames, Has.Length.EqualTo(panels));
        Assert.That(Picture.Texts(svg).Count(t => t == data.Runs), Is.EqualTo(panels), "not cut");
        foreach (XElement text in Picture.Xml(svg).Descendants().Where(e => e.Name.LocalName == "text" && (e.Value.StartsWith("infrared", StringComparison.Ordinal) || e.Value == data.Runs)))
        {
            XElement frame = frames.First(f => Math.Abs(Number(f, "x") - Number(text, "x")) < 2);
            Assert.That(Number(text, "x") + Number(text, "textLength"), Is.LessThanOrEqualTo(Number(frame, "x") + Number(frame, "width") + 1), text.Value);
        }
    }

    private static HeatChart Heat(double?[,] figures, bool[,] isMet) => new("t", [new HeatPanel
    {
        Title = "ours",
        XTitle = "x",
        YTitle = "y",
        XLevels = [.. Enumerable.Range(0, figures.GetLength(1)).Select(i => i.ToString(CultureInfo.InvariantCulture))],
        YLevels = [.. Enumerable.Range(0, figures.GetLength(0)).Select(i => i.ToString(CultureInfo.InvariantCulture))],
        Figures = figures,
        IsMet = isMet,
        Text = v => v.ToString(CultureInfo.InvariantCulture),
    }]) { Title = "t" };

    private static (double X, double Y)[] Circles(Chart chart) => Circles(chart.Bytes(FigureFormat.Svg));

    private static (double X, double Y)[] Circles(byte[] svg) =>
    [
        .. Picture.Xml(svg).Descendants().Where(e => e.Name.LocalName is "circle" or "ellipse").Select(e => (Number(e, "cx"), Number(e, "cy"))),
    ];

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
