// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Reports.Vectors;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Making;
using SkiaSharp;

namespace SensorSim.Reports.Tests.Vectors;

/// <summary>Pictures of cases: small, readable by any decoder, and showing what they say.</summary>
public sealed class CasePicturesTests
{
    private static readonly SKColor s_truth = new(0x00, 0x72, 0xB2);
    private static readonly SKColor s_answers = new(0xD5, 0x5E, 0x00);

    [Test]
    public void A_decoder_of_its_own_reads_the_picture_and_it_is_small()
    {
        byte[] png = CasePictures.Png(Picture([]));
        using var bitmap = SKBitmap.Decode(png);
        Assert.That(bitmap.Width, Is.EqualTo(800), "half of 1600");
        Assert.That(png, Has.Length.LessThan(40_000));
        Assert.That(bitmap.GetPixel(1, 1), Is.EqualTo(SKColors.White));
        Assert.That(Count(bitmap, s_truth), Is.GreaterThan(200), "true beats");
        Assert.That(CasePictures.Png(Picture([])), Is.EqualTo(png), "the same input gives the same bytes");
    }

    [Test]
    public void A_few_pixels_of_truth_keep_their_colour_among_many_of_other_colours()
    {
        // Grey steps by the thousand, and one blue and one orange pixel: a palette of what is frequent would lose both.
        using var bitmap = new SKBitmap(new SKImageInfo(257, 64, SKColorType.Rgba8888, SKAlphaType.Opaque));
        for (int x = 0; x < 256; x++)
        {
            for (int y = 0; y < 64; y++)
            {
                bitmap.SetPixel(x, y, new SKColor((byte)x, (byte)x, (byte)x));
            }
        }

        bitmap.SetPixel(3, 5, s_truth);
        bitmap.SetPixel(4, 5, s_answers);
        using var read = SKBitmap.Decode(PaletteImage.Png(bitmap));
        Assert.That(read.GetPixel(3, 5), Is.EqualTo(s_truth));
        Assert.That(read.GetPixel(4, 5), Is.EqualTo(s_answers));
        Assert.That(read.GetPixel(2, 5), Is.EqualTo(new SKColor(0x20, 0x20, 0x20)), "the nearest");
        Assert.That(read.GetPixel(255, 0), Is.EqualTo(SKColors.White));
        Assert.That(read.GetPixel(0x20, 0), Is.EqualTo(new SKColor(0x20, 0x20, 0x20)));
    }

    [Test]
    public void What_must_be_withheld_and_what_is_allowed_is_drawn()
    {
        int without = Blue(Picture([]));
        int withheld = Pale(Picture([new CaseDemand("ECG-2", ChannelName.Ecg, DemandKind.Nothing, 4, 6, double.NaN, double.NaN)]));
        int allowed = Blue(Picture([new CaseDemand("RATE-1", ChannelName.Ecg, DemandKind.Values, 2, 10, 60, 70)]));
        int between = Blue(Picture([new CaseDemand("ECG-1", ChannelName.Ecg, DemandKind.Nothing, 4, 6, double.NaN, double.NaN)]));
        Assert.That(withheld - Pale(Picture([])), Is.InRange(600, 1100), "two seconds of twelve are 119 pixels, six high without the frame, and the legend");
        Assert.That(allowed, Is.GreaterThan(without + 300), "two lines of eight seconds");
        Assert.That(between, Is.EqualTo(without), "what lies between beats of a requirement about marks is no place to be shown");
    }

    [Test]
    public void Rows_say_what_is_forbidden_what_is_wanted_and_what_was_given_when()
    {
        CasePicture picture = Picture(
        [
            new CaseDemand("ECG-2", ChannelName.Ecg, DemandKind.Nothing, 4, 6, double.NaN, double.NaN),
            new CaseDemand("ECG-2", ChannelName.Ecg, DemandKind.Nothing, 5.5, 8, double.NaN, double.NaN),
            new CaseDemand("GATE-1", ChannelName.Ecg, DemandKind.Something, 0, 3, double.NaN, double.NaN),
        ]);
        IReadOnlyList<CaseLane> lanes = CaseLanes.Of(picture, CaseWindow.Of(picture), [0], []);
        Assert.That(lanes.Select(l => l.Text).Take(2), Is.EqualTo(new[] { "ECG-2: no r peak, ecg", "GATE-1: gate shut (waiting), ecg" }));
        Assert.That(lanes[0].Forbidden, Is.EqualTo(new[] { (4.0, 8.0) }), "stretches that overlap are one");
        Assert.That(lanes[0].Wanted, Is.Empty);
        Assert.That(lanes[0].Given, Has.Count.EqualTo(picture.Captured.Marks.Count(m => m.Kind == MarkKind.RPeak)), "also outside of where it is forbidden");
        Assert.That(lanes[1].Wanted, Is.EqualTo(new[] { (0.0, 3.0) }));
        Assert.That(lanes[1].Given.Select(g => g.Word), Is.EqualTo(new[] { "waiting" }), "the gate of the library says so at the start");
        Assert.That(lanes[2].Text, Is.EqualTo("gate of ecg"));
        Assert.That(lanes[2].Open, Has.Count.EqualTo(1));
        Assert.That(lanes[2].Open[0].EndS, Is.EqualTo(12), "open until the end");
        Assert.That(lanes[2].Open[0].BeginS, Is.InRange(2, 11));
    }

    [Test]
    public void The_whole_of_a_case_is_shown_that_holds_what_it_is_about()
    {
        CasePicture picture = Picture([]);
        Assert.That(CaseWindow.Of(picture), Is.EqualTo(new CaseWindow(0, 12)));
    }

    private static int Pale(CasePicture picture)
    {
        using var bitmap = SKBitmap.Decode(CasePictures.Png(picture));
        return bitmap.Pixels.Count(p => p == new SKColor(0xCC, 0xE3, 0xF0));
    }

    private static int Blue(CasePicture picture)
    {
        using var bitmap = SKBitmap.Decode(CasePictures.Png(picture));
        return Count(bitmap, s_truth);
    }

    private static int Count(SKBitmap bitmap, SKColor colour) => bitmap.Pixels.Count(p =>
        Math.Abs(p.Red - colour.Red) + Math.Abs(p.Green - colour.Green) + Math.Abs(p.Blue - colour.Blue) < 60);

    private static CasePicture Picture(CaseDemand[] demands)
    {
        string folder = Directory.CreateTempSubdirectory("sensorsim-picture-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "rest.toml"), "[scenario]\nduration_s = 12\n");
            PlannedCase planned = VectorPlanReader.ReadText(Plan, Path.Combine(folder, "plan.toml")).Cases[0];
            IToldStream stream = planned.Scenario.OpenStream();
            var captured = new FirstSeconds(stream.Format, 0, 12, stream.Clocks);
            using var factory = new LibraryFactory();
            using IDetector library = factory.Create(new Dictionary<string, double>());
            new Runner(stream, stream.Truth, library, scorer: null, captured).Run();
            Assert.That(captured.Marks.Count(m => m.Kind == MarkKind.HeartRateBpm), Is.GreaterThan(3));
            return new CasePicture(planned, captured, demands);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private const string Plan = """
        [set]
        title = "Picture"

        [[requirement]]
        id = "ECG-1"
        text = "Every beat is found."
        clause = "own"
        channel = "ecg"
        kind = "r_peak"
        rule = "marks"
        sensitivity_min = 0.9

        [[requirement]]
        id = "ECG-2"
        text = "Nothing is given."
        clause = "own"
        channel = "ecg"
        kind = "r_peak"
        rule = "withheld"

        [[requirement]]
        id = "GATE-1"
        text = "The gate waits first."
        clause = "own"
        channel = "ecg"
        kind = "gate_shut"
        rule = "shown"
        value = 1
        within_s = 3

        [[requirement]]
        id = "RATE-1"
        text = "The rate is right."
        clause = "own"
        channel = "ecg"
        kind = "heart_rate_bpm"
        rule = "readings"
        error_max = 5

        [[case]]
        name = "rest"
        scenario = "rest.toml"
        level = "pass"
        requirements = ["ECG-1", "ECG-2", "GATE-1", "RATE-1"]
        """;
}
