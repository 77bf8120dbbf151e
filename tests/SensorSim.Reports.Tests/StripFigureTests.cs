// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Xml.Linq;
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;
using SensorSim.Signals.Marks;
using SkiaSharp;

namespace SensorSim.Reports.Tests;

/// <summary>The strip as a reader of ECG paper measures it.</summary>
/// <remarks>
/// Paper: 25 mm/s and 10 mm/mV, fine squares of 1 mm, bold ones of 5 mm, so 0.2 s by 0.5 mV (common practice). The page has 6 units
/// a millimetre: 150 to the second, 60 to the millivolt.
/// </remarks>
public class StripFigureTests
{
    private const double PxPerS = 150;
    private const double PxPerMv = 60;

    [TestCase(0.5, 1)]
    [TestCase(4.3, 1)]
    [TestCase(10, 1)]
    [TestCase(10.1, 2)]
    [TestCase(20, 2)]
    [TestCase(30, 3)]
    public void Write_Stretch_HasARowForEveryTenSecondsBegun(double seconds, int rows)
    {
        string[] texts = Texts(StripSamples.Even(seconds));
        Assert.That(texts.Count(text => text == "ECG, mV"), Is.EqualTo(rows));
        Assert.That(texts.Count(text => text == "infrared,"), Is.EqualTo(rows));
        Assert.That(texts.Count(text => text == "inverted"), Is.EqualTo(rows));
    }

    [Test]
    public void Write_AnyStretch_SaysTitleAxisAndProportions()
    {
        Assert.That(Texts(StripSamples.Even()), Is.SupersetOf(new[] { "Title", "time (s)", "25 mm/s, 10 mm/mV proportions", "0", "10", "20", "30", "1", "-1" }));
    }

    [Test]
    public void Write_Paper_HasSquaresOfTheTrade()
    {
        StripPanel blank = Level(10) with { EcgMv = Missing(10) };
        using SKBitmap picture = Picture.Decode(Picture.Of(blank));
        int[] bold = [.. Columns(picture, Ink.StripBold)];
        int[] fine = [.. Columns(picture, Ink.StripFine)];

        // 0.2 s and 0.04 s; the frame lies on the first and the last bold line, bold lines lie on every fifth fine one.
        Assert.That(bold, Has.Length.EqualTo(49));
        Assert.That(Steps(bold), Is.All.EqualTo((int)(0.2 * PxPerS)));
        Assert.That(fine, Has.Length.EqualTo(200));
        Assert.That(Steps(fine).Min(), Is.EqualTo((int)(0.04 * PxPerS)));

        // 0.5 mV: the squares are square.
        int[] level = [.. Rows(picture, Ink.StripBold)];
        Assert.That(Steps(level), Is.All.EqualTo((int)(0.5 * PxPerMv)));
        Assert.That(level, Has.Length.EqualTo(7), "2 mV to either side, without the two lines under the frame");
    }

    [Test]
    public void Write_Levels_LieTheirMillivoltsApart()
    {
        double zero = CurveY(Level(10), 5);
        Assert.That(CurveY(Level(10, 1), 5), Is.EqualTo(zero - PxPerMv).Within(0.5));
        Assert.That(CurveY(Level(10, -1.5), 5), Is.EqualTo(zero + (1.5 * PxPerMv)).Within(0.5));
    }

    [Test]
    public void Write_Letters_StandAboveTheirBeats()
    {
        StripPanel panel = StripSamples.Mixed();
        XElement[] letters = [.. Elements(panel).Where(e => e.Value.Length == 1 && "NVAJP".Contains(e.Value, StringComparison.Ordinal))];

        Assert.That(letters.Select(e => e.Value), Is.EqualTo(panel.Beats.Select(beat => BeatLetters.Letter(beat.Class))));
        for (int i = 0; i < letters.Length; i++)
        {
            double middle = Number(letters[i], "x") + (Number(letters[i], "textLength") / 2);
            Assert.That(middle, Is.EqualTo(Ink.StripLeftPx + (panel.Beats[i].TimeS % 10 * PxPerS)).Within(1.5), letters[i].Value + i);
        }

        Assert.That(Texts(panel), Has.Member(
            "beats, true: N normally conducted · V ventricular · A atrial premature · J junctional escape · P paced"));
    }

    [Test]
    public void Write_FastRhythm_DrawsNoLetterIntoAnother()
    {
        // 0.05 s is nearer than any heart beats: a letter of 14 px no longer fits into 7.5.
        foreach (IGrouping<string, XElement> row in Elements(StripSamples.Even(30, 0.05)).Where(e => e.Value == "N").GroupBy(e => e.Attribute("y")!.Value))
        {
            double[] lefts = [.. row.Select(e => Number(e, "x"))];
            Assert.That(lefts, Has.Length.GreaterThan(50));
            Assert.That(lefts.Zip(lefts.Skip(1), (a, b) => b - a).Min(), Is.GreaterThan(Number(row.First(), "textLength")));
        }
    }

    [Test]
    public void Write_Signs_StandAtTheirTimes()
    {
        StripPanel bare = Level(10);
        Assert.That(SignX(bare with { BlockedPTimesS = [2.5] }), Is.EqualTo(Ink.StripLeftPx + (2.5 * PxPerS)).Within(1));
        Assert.That(SignX(bare with { SpikeTimesS = [4.5] }), Is.EqualTo(Ink.StripLeftPx + (4.5 * PxPerS)).Within(1));
        Assert.That(SignX(bare with { NoPulseTimesS = [6.5] }), Is.EqualTo(Ink.StripLeftPx + (6.5 * PxPerS)).Within(1));
        Assert.That(SignX(bare with { FootTimesS = [7.5] }), Is.EqualTo(Ink.StripLeftPx + (7.5 * PxPerS)).Within(1));
    }

    [Test]
    public void Write_Legend_NamesWhatIsThereAndNothingElse()
    {
        string[] all = ["P wave not conducted, true", "pacing spike, true", "pulse foot (tangents), true", "beat without pulse, true"];
        Assert.That(Texts(StripSamples.Mixed()), Is.SupersetOf(all));
        Assert.That(Texts(StripSamples.Even()).Intersect(all), Is.EqualTo(new[] { all[2] }));
    }

    [Test]
    public void Write_NoBeats_SaysSoAndLeavesTheLineFlat()
    {
        StripPanel panel = Level(30);
        string[] texts = Texts(panel);
        Assert.That(texts, Has.Member("beats, true: none").And.No.Member("N"));
        using SKBitmap picture = Picture.Decode(Picture.Of(panel));
        int[] levels = [.. Rows(picture, Ink.Signal, 700)];
        Assert.That(levels.Count(y => levels.Contains(y - 1)), Is.LessThanOrEqualTo(6), "three lines of the ECG, three of the light, each two pixels thick");
    }

    [Test]
    public void Write_Wander_GrowsTheRowInsteadOfCuttingIt()
    {
        // A narrow peak of 6.3 mV on a level of -3 mV: from the level to the peak are 9.3 mV.
        StripPanel level = Level(10, -3);
        StripPanel peak = level with { EcgMv = [.. level.EcgMv.Select((v, i) => i is > 1245 and < 1255 ? 6.3 : v)] };
        using SKBitmap picture = Picture.Decode(Picture.Of(peak));
        int x = Ink.StripLeftPx + (int)(5 * PxPerS);
        Assert.That(Texts(peak), Has.Member("25 mm/s, 10 mm/mV proportions"));
        Assert.That(CurveYs(picture, x - 300).Average() - CurveYs(picture, x).Average(), Is.EqualTo(9.3 * PxPerMv).Within(1));
        using SKBitmap normal = Picture.Decode(Picture.Of(Level(10)));
        Assert.That(picture.Height - normal.Height, Is.EqualTo((10 - 4) * PxPerMv), "from -3.5 to 6.5 mV instead of 2 to either side");
    }

    // 100 mm hold 10, 20, 40 mV at 10, 5, 2.5 mm/mV.
    [TestCase(4.5, "25 mm/s, 10 mm/mV proportions")]
    [TestCase(9, "25 mm/s, 5 mm/mV proportions")]
    [TestCase(18, "25 mm/s, 2.5 mm/mV proportions")]
    public void Write_HugeEcg_HalvesTheGainAndKeepsThePage(double amplitudeMv, string note)
    {
        StripPanel panel = Level(10);
        StripPanel huge = panel with { EcgMv = [.. panel.EcgTimesS.Select(t => amplitudeMv * Math.Sin(t))] };
        Assert.That(Texts(huge), Has.Member(note));
        using SKBitmap picture = Picture.Decode(Picture.Of(huge));
        using SKBitmap normal = Picture.Decode(Picture.Of(panel));
        Assert.That(picture.Height - normal.Height, Is.InRange(0, (10 - 4) * PxPerMv));
    }

    [Test]
    public void Write_EcgFarFromZero_IsDrawnAroundItself()
    {
        string[] texts = Texts(Level(10, 300));
        Assert.That(texts, Has.Member("25 mm/s, 10 mm/mV proportions").And.Member("300").And.Member("301"));
    }

    [Test]
    public void Write_Light_IsTurnedOver()
    {
        StripPanel panel = Level(10);
        StripPanel dip = panel with { Light = [.. panel.LightTimesS.Select(t => t is > 4.5 and < 5.5 ? 900.0 : 1000.0)] };
        using SKBitmap picture = Picture.Decode(Picture.Of(dip));
        int x = Ink.StripLeftPx + (int)(5 * PxPerS);
        Assert.That(DarkYs(picture, x).Max(), Is.LessThan(DarkYs(picture, x - 300).Max() - 40), "less light is a fuller vessel: up");
    }

    [Test]
    public void Write_RowWithoutPulse_LooksFlatBesideTheOthers()
    {
        StripPanel panel = Level(20);
        StripPanel light = panel with { Light = [.. panel.LightTimesS.Select(t => 10_000 + ((t < 9.9 ? 800 : 10) * Math.Sin(6 * t)))] };
        using SKBitmap picture = Picture.Decode(Picture.Of(light));
        int bottom = picture.Height - 80;
        int[] lower = [.. Picture.Pixels(picture, Ink.Signal).Where(p => p.X > Ink.StripLeftPx + 5 && p.Y > bottom - 100 && p.Y < bottom).Select(p => p.Y)];
        Assert.That(lower, Is.Not.Empty);
        Assert.That(lower.Max() - lower.Min(), Is.LessThan(10));
    }

    [Test]
    public void Write_Gaps_BreakBothLinesAndAreShaded()
    {
        StripPanel panel = StripSamples.Even(10);
        StripPanel gap = panel with
        {
            EcgMv = [.. panel.EcgMv.Select((v, i) => panel.EcgTimesS[i] is > 4 and < 6 ? double.NaN : v)],
            Light = [.. panel.Light.Select((v, i) => panel.LightTimesS[i] is > 4 and < 6 ? double.NaN : v)],
        };
        using SKBitmap picture = Picture.Decode(Picture.Of(gap));
        int middle = Ink.StripLeftPx + (int)(5 * PxPerS);
        Assert.That(Picture.Pixels(picture, Ink.Signal).Where(p => Math.Abs(p.X - middle) < 140 && p.Y < picture.Height - 80), Is.Empty);
        Assert.That(Picture.Pixels(picture, Ink.Gap).Count(p => Math.Abs(p.X - middle) < 140), Is.GreaterThan(50_000));
        Assert.That(Texts(gap), Has.Member("no samples"));
        Assert.That(Texts(panel), Has.No.Member("no samples"));
    }

    [Test]
    public void Write_NothingButGaps_SaysSo()
    {
        StripPanel panel = StripSamples.Even(20);
        Assert.That(Texts(panel with { EcgMv = Missing(20) }).Count(text => text == "no data"), Is.EqualTo(2));
        Assert.That(Texts(panel with { Light = Array.ConvertAll(panel.Light, _ => double.NaN) }).Count(text => text == "no data"), Is.EqualTo(2));
    }

    [Test]
    public void Write_NoLightChannel_LeavesThePulseRowsOut()
    {
        StripPanel panel = StripSamples.Even(10);
        using SKBitmap with = Picture.Decode(Picture.Of(panel));
        using SKBitmap without = Picture.Decode(Picture.Of(panel with { LightTimesS = [], Light = [] }));
        Assert.That(without.Height, Is.LessThan(with.Height - 80));
        Assert.That(Texts(panel with { LightTimesS = [], Light = [] }), Has.No.Member("infrared,"));
    }

    // A pixel column has 13 samples. Either peak may come first.
    [TestCase(1)]
    [TestCase(-1)]
    public void Write_HighRate_KeepsPeaksOfOneSampleAndAFileOfTheSameSize(int sign)
    {
        double[] times = [.. Enumerable.Range(0, 20_000).Select(i => i / 2000.0)];
        double[] mv = [.. times.Select(t => 0.02 * Math.Sin(400 * t))];
        mv[9_998] = 1.5 * sign;
        mv[10_002] = -1.5 * sign;
        StripPanel fast = Level(10) with { EcgTimesS = times, EcgMv = mv };
        using SKBitmap picture = Picture.Decode(Picture.Of(fast));
        int[] ys = [.. Enumerable.Range(-2, 5).SelectMany(dx => DarkYs(picture, Ink.StripLeftPx + (int)(5 * PxPerS) + dx)).Where(y => y < 400)];
        Assert.That(ys.Max() - ys.Min(), Is.EqualTo(3 * PxPerMv).Within(5));
        Assert.That(Picture.Of(fast, FigureFormat.Svg), Has.Length.LessThan(3 * Picture.Of(StripSamples.Even(10), FigureFormat.Svg).Length));
    }

    [Test]
    public void SparseLine_AnyCurve_StaysWithinAFifthOfAPixel()
    {
        using SKPath path = new();
        SKPoint[] points = [.. Enumerable.Range(0, 2000).Select(i => new SKPoint(i * 0.6f, (float)((40 * Math.Sin(i * 0.02)) + (i % 97 == 0 ? 30 : 0.3 * Math.Sin(i * 1.7)))))];
        SparseLine line = new(path, points[0].X, points[0].Y);
        foreach (SKPoint point in points[1..])
        {
            line.To(point.X, point.Y);
        }

        line.Finish();
        SKPoint[] kept = path.Points;
        Assert.That(kept, Has.Length.LessThan(1500));
        Assert.That((kept[0], kept[^1]), Is.EqualTo((points[0], points[^1])));
        int segment = 1;
        foreach (SKPoint point in points)
        {
            while (kept[segment].X < point.X)
            {
                segment++;
            }

            double share = (point.X - kept[segment - 1].X) / (kept[segment].X - kept[segment - 1].X);
            Assert.That(kept[segment - 1].Y + (share * (kept[segment].Y - kept[segment - 1].Y)), Is.EqualTo(point.Y).Within(0.201));
        }
    }

    [TestCase(0)]
    [TestCase(-1)]
    [TestCase(30.1)]
    [TestCase(double.NaN)]
    public void Write_NoOrTooLongAStretch_IsRefused(double seconds)
    {
        Assert.That(() => Picture.Of(Level(10) with { EndS = seconds }), Throws.ArgumentException.With.Message.Contains("at most 30 s"));
    }

    [Test]
    public void Write_WrongArrays_AreRefused()
    {
        StripPanel panel = Level(10);
        Assert.That(() => Picture.Of(panel with { EcgMv = new double[7] }), Throws.ArgumentException.With.Message.Contains("\"ECG\": 2500 times but 7 values"));
        Assert.That(() => Picture.Of(panel with { Light = [] }), Throws.ArgumentException.With.Message.Contains("\"infrared\": 1000 times but 0 values"));
        Assert.That(
            () => Picture.Of(panel with { Beats = [new StripBeat(2, BeatClass.Normal), new StripBeat(1, BeatClass.Normal)] }),
            Throws.ArgumentException.With.Message.Contains("Beat 1 is at 1 s, after one at 2 s"));
    }

    /// <summary>A flat ECG and a steady light, without any event.</summary>
    private static StripPanel Level(double seconds, double mv = 0)
    {
        StripPanel panel = StripSamples.Of(seconds, []);
        return panel with { EcgMv = Array.ConvertAll(panel.EcgMv, _ => mv), Light = Array.ConvertAll(panel.Light, _ => 1000.0) };
    }

    private static double[] Missing(double seconds) => [.. Enumerable.Repeat(double.NaN, (int)(250 * seconds))];

    private static string[] Texts(StripPanel panel) => Picture.Texts(Picture.Of(panel, FigureFormat.Svg));

    private static XElement[] Elements(StripPanel panel) =>
        [.. Picture.Xml(Picture.Of(panel, FigureFormat.Svg)).Descendants().Where(e => e.Name.LocalName == "text")];

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    private static double CurveY(StripPanel panel, double timeS)
    {
        using SKBitmap picture = Picture.Decode(Picture.Of(panel));
        int top = CurveYs(picture, Ink.StripLeftPx + (int)(timeS * PxPerS)).Min();
        return top + 0.5;
    }

    private static int[] CurveYs(SKBitmap picture, int x)
    {
        int[] ys = [.. DarkYs(picture, x)];
        int first = ys.Min();

        // The ECG alone: the light lies below the paper.
        return [.. ys.Where(y => y - first < 40)];
    }

    private static IEnumerable<int> DarkYs(SKBitmap picture, int x) =>
        Enumerable.Range(130, picture.Height - 210).Where(y => picture.GetPixel(x, y).Red < 0x70 && picture.GetPixel(x, y).Blue < 0x70);

    /// <summary>Columns that have the colour on at least a hundred pixels.</summary>
    private static IEnumerable<int> Columns(SKBitmap picture, SKColor color) =>
        Picture.Pixels(picture, color).GroupBy(p => p.X).Where(g => g.Count() > 100).Select(g => g.Key).Order();

    /// <summary>Rows that have the colour on at least so many pixels.</summary>
    private static IEnumerable<int> Rows(SKBitmap picture, SKColor color, int atLeast = 1000) =>
        Picture.Pixels(picture, color).GroupBy(p => p.Y).Where(g => g.Count() > atLeast).Select(g => g.Key).Order();

    private static IEnumerable<int> Steps(int[] places) => places.Zip(places.Skip(1), (a, b) => b - a);

    /// <summary>Middle of the one sign of truth under the headlines.</summary>
    private static double SignX(StripPanel panel)
    {
        using SKBitmap picture = Picture.Decode(Picture.Of(panel));
        int[] xs = [.. Picture.Pixels(picture, Ink.Truth).Where(p => p.Y > 120).Select(p => p.X)];
        Assert.That(xs, Is.Not.Empty);
        Assert.That(xs.Max() - xs.Min(), Is.LessThan(14));
        return ((xs.Max() + xs.Min()) / 2.0) + 0.5;
    }
}
