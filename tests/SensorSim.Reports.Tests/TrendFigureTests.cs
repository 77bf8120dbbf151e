// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Tests;

public class TrendFigureTests
{
    [Test]
    public void Write_TwoKinds_DrawsTruthAndReadings()
    {
        byte[] svg = Picture.Of(Samples.TwoTrends(), FigureFormat.Svg);
        using SKBitmap picture = Picture.Decode(Picture.Of(Samples.TwoTrends()));
        Assert.That(Picture.Pixels(picture, Ink.Truth), Has.Count.GreaterThan(1500));
        Assert.That(Picture.Pixels(picture, Ink.Detected), Has.Count.GreaterThan(2 * 60 * 20));
        Assert.That(Picture.Texts(svg), Is.SupersetOf(new[] { "Heart rate (bpm)", "Arrival time (ms)", "true", "reading", "time (s)" }));
    }

    [Test]
    public void Write_NoReadings_DrawsTruthAlone()
    {
        TrendPanel panel = Samples.TwoTrends()[0] with { ReadingTimesS = [], ReadingValues = [] };
        using SKBitmap picture = Picture.Decode(Picture.Of([panel]));
        Assert.That(Picture.Pixels(picture, Ink.Detected), Is.Empty);
        Assert.That(Picture.Pixels(picture, Ink.Truth), Is.Not.Empty);
    }

    [Test]
    public void Write_NothingAtAll_SaysSo()
    {
        TrendPanel panel = new() { Title = "Heart rate", Unit = "bpm", TruthTimesS = [], TruthValues = [], ReadingTimesS = [], ReadingValues = [] };
        Assert.That(Picture.Texts(Picture.Of([panel], FigureFormat.Svg)), Has.Member("no data").And.No.Member("true"));
    }

    [Test]
    public void Write_OneReadingAndOneTruth_DrawsBoth()
    {
        TrendPanel panel = new() { Title = "Heart rate", Unit = "bpm", TruthTimesS = [1], TruthValues = [70], ReadingTimesS = [2], ReadingValues = [71] };
        using SKBitmap picture = Picture.Decode(Picture.Of([panel]));
        Assert.That(Picture.Pixels(picture, Ink.Detected).Where(p => p.Y > 110), Is.Not.Empty);
        Assert.That(Picture.Pixels(picture, Ink.Truth).Where(p => p.Y > 110), Is.Not.Empty);
    }

    [Test]
    public void Write_NaNInTheTruth_BreaksTheLine()
    {
        double[] times = [.. Enumerable.Range(0, 101).Select(i => (double)i)];
        double[] values = [.. times.Select(t => t is > 40 and < 60 ? double.NaN : 70 + (0.01 * t))];
        TrendPanel panel = new() { Title = "Heart rate", Unit = "bpm", TruthTimesS = times, TruthValues = values, ReadingTimesS = [], ReadingValues = [] };
        using SKBitmap picture = Picture.Decode(Picture.Of([panel]));
        int middle = (Ink.LeftPx + Ink.WidthPx - Ink.RightPx) / 2;
        Assert.That(Picture.Pixels(picture, Ink.Truth).Where(p => p.Y > 110 && Math.Abs(p.X - middle) < 100), Is.Empty);
    }

    [Test]
    public void Write_ADayOfBeats_StaysBelowAMegabyteInBothFormats()
    {
        Assert.That(Picture.Of(Samples.TwoTrends(100_000)), Has.Length.LessThan(1_000_000));
        Assert.That(Picture.Of(Samples.TwoTrends(100_000), FigureFormat.Svg), Has.Length.LessThan(1_000_000));
    }

    [Test]
    public void Shown_ManyReadings_KeepsTheExtremesOfEveryColumn()
    {
        double[] values = [.. Enumerable.Range(0, 10_000).Select(i => (i * 37 % 101) + (i == 4321 ? 1000.0 : 0))];
        values[777] = double.NaN;
        List<int> shown = DenseReadings.Shown(values, i => i / 500);
        Assert.That(shown, Has.Count.EqualTo(2 * 20).And.Member(4321));
        Assert.That(shown, Is.Ordered.Ascending);
        for (int column = 0; column < 20; column++)
        {
            double[] all = [.. values.Skip(column * 500).Take(500).Where(double.IsFinite)];
            double[] kept = [.. shown.Where(i => i / 500 == column).Select(i => values[i])];
            Assert.That((kept.Min(), kept.Max()), Is.EqualTo((all.Min(), all.Max())));
        }
    }

    [Test]
    public void Shown_FewReadings_KeepsAllNumbers()
    {
        Assert.That(DenseReadings.Shown([1, double.NaN, 3, 2], _ => 0), Is.EqualTo(new[] { 0, 2, 3 }));
    }
}
