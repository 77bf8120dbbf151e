// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Tests;

public class SignalFigureTests
{
    // A level line at height 0 from 0 to 10 s, without marks.
    private static SignalPanel Level => new()
    {
        Title = "Level",
        Unit = "mV",
        TimesS = [.. Enumerable.Range(0, 1001).Select(i => i * 0.01)],
        Values = new double[1001],
    };

    private static bool IsBlue(SKColor color) => color.Blue > color.Red + 60;

    [Test]
    public void Write_FiveSignals_Is1600WideAndGrowsWithThePanels()
    {
        using SKBitmap one = Picture.Decode(Picture.Of([Samples.Ecg()]));
        using SKBitmap five = Picture.Decode(Picture.Of(Samples.FiveSignals()));
        Assert.That(one.Width, Is.EqualTo(1600));
        Assert.That(five.Width, Is.EqualTo(1600));
        Assert.That(five.Height, Is.GreaterThan(2 * one.Height).And.LessThan(1600));
    }

    [Test]
    public void Write_Signal_DrawsCurveAndBothKindsOfMark()
    {
        using SKBitmap picture = Picture.Decode(Picture.Of([Samples.Ecg()]));
        Assert.That(Picture.Pixels(picture, Ink.Signal), Has.Count.GreaterThan(500));
        Assert.That(Picture.Pixels(picture, Ink.Truth), Has.Count.GreaterThan(200));
        Assert.That(Picture.Pixels(picture, Ink.Detected), Has.Count.GreaterThan(500));
    }

    [Test]
    public void Write_WithoutMarks_UsesNeitherMarkColour()
    {
        using SKBitmap picture = Picture.Decode(Picture.Of([Level]));
        Assert.That(Picture.Pixels(picture, Ink.Truth), Is.Empty);
        Assert.That(Picture.Pixels(picture, Ink.Detected), Is.Empty);
    }

    [TestCase(0.5)]
    [TestCase(5.0)]
    [TestCase(8.25)]
    public void Write_TruthWithoutValue_StandsAtItsTime(double timeS)
    {
        using SKBitmap picture = Picture.Decode(Picture.Of([Level with { TruthMarks = [new PlotMark(timeS)] }]));
        double expected = Ink.LeftPx + ((Ink.WidthPx - Ink.LeftPx - Ink.RightPx) * timeS / 10);

        // One row of pixels through the panel: a line of 1.6 px touches two or three of them.
        int[] blue = [.. Enumerable.Range(0, picture.Width).Where(x => IsBlue(picture.GetPixel(x, 200)))];
        Assert.That(blue, Has.Length.InRange(1, 3));
        Assert.That(blue.Average() + 0.5, Is.EqualTo(expected).Within(1.0));
    }

    [Test]
    public void Write_DetectionWithValue_IsAFilledDiamondAtItsTimeAndHeight()
    {
        SignalPanel panel = Level with
        {
            Values = [.. Enumerable.Range(0, 1001).Select(i => i % 2 == 0 ? -1.0 : 1.0)],
            DetectedMarks = [new PlotMark(2.5, 0)],
        };
        using SKBitmap picture = Picture.Decode(Picture.Of([panel]));
        (int X, int Y)[] pixels = [.. Picture.Pixels(picture, Ink.Detected).Where(p => p.Y > 110)];
        double width = Ink.WidthPx - Ink.LeftPx - Ink.RightPx;
        Assert.That(pixels.Average(p => p.X + 0.5), Is.EqualTo(Ink.LeftPx + (width / 4)).Within(1.0));
        Assert.That(pixels.Average(p => p.Y + 0.5), Is.EqualTo(pixels.Min(p => p.Y) + ((pixels.Max(p => p.Y) - pixels.Min(p => p.Y)) / 2.0)).Within(1.5));
        Assert.That(pixels, Has.Length.GreaterThan(50), "a filled sign, not an outline");
    }

    [Test]
    public void Write_TwoPanelsOfDifferentLength_ShareOneTimeAxis()
    {
        SignalPanel shorter = Level with { TimesS = [.. Level.TimesS.Take(301)], Values = new double[301], DetectedMarks = [new PlotMark(2, 0)] };
        SignalPanel longer = Level with { DetectedMarks = [new PlotMark(2, 0)] };
        using SKBitmap picture = Picture.Decode(Picture.Of([shorter, longer]));
        (int X, int Y)[] marks = [.. Picture.Pixels(picture, Ink.Detected).Where(p => p.X < 800)];
        int split = picture.Height / 2;
        double upper = marks.Where(p => p.Y < split).Average(p => p.X);
        double lower = marks.Where(p => p.Y >= split).Average(p => p.X);
        Assert.That(upper, Is.EqualTo(lower).Within(0.01));
    }

    [Test]
    public void Write_MissingSamples_BreaksTheLineAndShadesTheGap()
    {
        double[] times = [.. Level.TimesS.Where(t => t is < 4 or > 6)];
        SignalPanel gap = Level with { TimesS = times, Values = new double[times.Length] };
        using SKBitmap picture = Picture.Decode(Picture.Of([gap]));
        int atFive = (Ink.LeftPx + Ink.WidthPx - Ink.RightPx) / 2;
        Assert.That(Picture.Pixels(picture, Ink.Signal).Where(p => Math.Abs(p.X - atFive) < 100 && p.Y < picture.Height - 80), Is.Empty);
        Assert.That(Picture.Pixels(picture, Ink.Gap).Count(p => Math.Abs(p.X - atFive) < 100), Is.GreaterThan(10_000));
        Assert.That(Picture.Texts(Picture.Of([gap], FigureFormat.Svg)), Has.Member("no samples"));
        Assert.That(Picture.Texts(Picture.Of([Level], FigureFormat.Svg)), Has.No.Member("no samples"));
    }

    [Test]
    public void Write_MarkOutsideTheSamples_IsNotDrawn()
    {
        SignalPanel panel = Level with { DetectedMarks = [new PlotMark(-1, 0), new PlotMark(10.5), new PlotMark(double.NaN, 0)] };
        using SKBitmap picture = Picture.Decode(Picture.Of([panel]));
        Assert.That(Picture.Pixels(picture, Ink.Detected).Where(p => p.Y > 110), Is.Empty);
    }

    [TestCase(new double[0], new double[0], true)]
    [TestCase(new[] { 3.0 }, new[] { 7.0 }, false)]
    [TestCase(new[] { 0.0, 1, 2 }, new[] { double.NaN, double.NaN, double.NaN }, true)]
    [TestCase(new[] { 0.0, 1, 2, 3 }, new[] { 1, double.NaN, double.PositiveInfinity, 2 }, false)]
    [TestCase(new[] { 5.0, 5, 5 }, new[] { 1.0, 2, 3 }, false)]
    [TestCase(new[] { 0.0, 1 }, new[] { 8388607.0, 8388607 }, false)]
    [TestCase(new[] { 0.0, 1 }, new[] { 0.0, 1e-12 }, false)]
    public void Write_LittleOrNoData_GivesAFigureThatSaysSo(double[] timesS, double[] values, bool isEmpty)
    {
        SignalPanel panel = new() { Title = "Odd", Unit = "", TimesS = timesS, Values = values, TruthMarks = [new PlotMark(1, 1, "x")] };
        byte[] svg = Picture.Of([panel], FigureFormat.Svg);
        using SKBitmap picture = Picture.Decode(Picture.Of([panel]));
        Assert.That(picture.Height, Is.GreaterThan(300));
        Assert.That(Picture.Texts(svg).Contains("no data"), Is.EqualTo(isEmpty));
    }

    [TestCase(0)]
    [TestCase(9)]
    public void Write_WrongNumberOfPanels_SaysHowManyMayBe(int count)
    {
        SignalPanel[] panels = [.. Enumerable.Repeat(Level, count)];
        Assert.That(() => Picture.Of(panels), Throws.ArgumentException.With.Message.Contains("1 to 8 panels, not " + count));
    }

    [Test]
    public void Write_UnequalArrays_NamesThePanelAndBothLengths()
    {
        SignalPanel panel = Level with { Values = new double[7] };
        Assert.That(() => Picture.Of([panel]), Throws.ArgumentException.With.Message.Contains("\"Level\": 1001 times but 7 values"));
    }

    [Test]
    public void Write_DescendingTimes_NamesTheFirstWrongOne()
    {
        SignalPanel panel = Level with { TimesS = [0, 2, 1], Values = new double[3] };
        Assert.That(() => Picture.Of([panel]), Throws.ArgumentException.With.Message.Contains("time 2 is 1 s"));
    }
}
