// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Tests;

public class CurveFigureTests
{
    private static readonly (CurveStyle Style, string Text)[] s_legend = [(CurveStyle.First, "clean"), (CurveStyle.SecondDashed, "noisy")];

    private static CurvePanel Panel(double[] first, double[] second, bool isInDecades = true) => new()
    {
        Title = "SD (ms)",
        XTitle = "bits",
        Curves =
        [
            new Curve(CurveStyle.First, [.. first.Select((_, i) => 8.0 + i)], first),
            new Curve(CurveStyle.SecondDashed, [.. second.Select((_, i) => 8.0 + i)], second),
        ],
        IsInDecades = isInDecades,
        Lowest = isInDecades ? 0.1 : 0,
        Highest = 100,
    };

    [Test]
    public void Write_TwoCurves_DrawsBothWithLegendAndDecades()
    {
        CurvePanel panel = Panel([50, 5, 0.5], [80, 8, 8]);
        Assert.That(
            Picture.Texts(Bytes([panel], FigureFormat.Svg)),
            Is.SupersetOf(new[] { "Title", "SD (ms)", "bits", "clean", "noisy", "0.1", "1", "10", "100" }));
        using SKBitmap picture = Picture.Decode(Bytes([panel]));
        Assert.That(Picture.Pixels(picture, Ink.Truth).Count(p => p.Y > 110), Is.GreaterThan(1000));
        Assert.That(Picture.Pixels(picture, Ink.Detected).Count(p => p.Y > 110), Is.GreaterThan(500));
    }

    [Test]
    public void Write_InDecades_PutsEqualFactorsAtEqualDistances()
    {
        // Three spots at 100, 10 and 1: the outer ones at the same distance from the middle.
        using SKBitmap picture = Picture.Decode(Bytes([Panel([100, double.NaN, 10, double.NaN, 1], [])]));
        int[] rows = [.. Spots(picture)];
        Assert.That(rows, Has.Length.EqualTo(3));
        Assert.That(rows[1] - rows[0], Is.EqualTo(rows[2] - rows[1]).Within(1).And.GreaterThan(50));
    }

    [Test]
    public void Write_ValuesOutOfRange_AreDrawnAtTheEnds()
    {
        using SKBitmap outside = Picture.Decode(Bytes([Panel([1e6, double.NaN, 1e-6], [])]));
        using SKBitmap atTheEnds = Picture.Decode(Bytes([Panel([100, double.NaN, 0.1], [])]));
        Assert.That(Spots(outside), Is.EqualTo(Spots(atTheEnds)));
    }

    [Test]
    public void Write_WhatIsNoNumber_IsLeftOut()
    {
        using SKBitmap picture = Picture.Decode(Bytes([Panel([double.NaN, 0, -1], [], isInDecades: true)]));
        Assert.That(Spots(picture), Is.Empty);
    }

    [TestCase(0)]
    [TestCase(10)]
    public void Write_WrongNumberOfPanels_IsRefused(int count) => Assert.That(
        () => Bytes([.. Enumerable.Repeat(Panel([1], [1]), count)]), Throws.ArgumentException.With.Message.Contains("1 to 9"));

    [Test]
    public void Write_WrongPanels_AreRefused()
    {
        CurvePanel uneven = Panel([1], []) with { Curves = [new Curve(CurveStyle.First, [1, 2], [1])] };
        Assert.That(() => Bytes([uneven]), Throws.ArgumentException.With.Message.Contains("2 places but 1 values"));
        Assert.That(() => Bytes([Panel([1], []) with { Lowest = 0 }]), Throws.ArgumentException.With.Message.Contains("no range from 0 to 100"));
    }

    [Test]
    public void Write_Twice_GivesTheSameBytes([Values] FigureFormat format) => Assert.That(
        Bytes([Panel([50, 5], [80, 8])], format), Is.EqualTo(Bytes([Panel([50, 5], [80, 8])], format)));

    /// <summary>Middle rows of the blue spots in the panel, from the top.</summary>
    private static List<int> Spots(SKBitmap picture)
    {
        List<(int X, int Y)> pixels = [.. Picture.Pixels(picture, Ink.Truth).Where(p => p.Y > 100).OrderBy(p => p.X)];
        var middles = new List<int>();
        for (int from = 0; from < pixels.Count;)
        {
            // One spot ends where no column is blue any more.
            int until = from + 1;
            while (until < pixels.Count && pixels[until].X <= pixels[until - 1].X + 1)
            {
                until++;
            }

            List<(int X, int Y)> spot = pixels[from..until];
            middles.Add((spot.Min(p => p.Y) + spot.Max(p => p.Y)) / 2);
            from = until;
        }

        middles.Sort();
        return middles;
    }

    private static byte[] Bytes(CurvePanel[] panels, FigureFormat format = FigureFormat.Png)
    {
        using MemoryStream stream = new();
        CurveFigure.Write(panels, s_legend, "Title", stream, format);
        return stream.ToArray();
    }
}
