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

    [Test]
    public void A_decoder_of_its_own_reads_the_picture_and_it_is_small()
    {
        byte[] png = CasePictures.Png(Picture([]));
        using var bitmap = SKBitmap.Decode(png);
        Assert.That((bitmap.Width, bitmap.Height), Is.EqualTo((800, 467)), "half of 1600, of three panels");
        Assert.That(png, Has.Length.LessThan(40_000));
        Assert.That(bitmap.GetPixel(1, 1), Is.EqualTo(SKColors.White));
        Assert.That(Count(bitmap, s_truth), Is.GreaterThan(200), "true beats");
        Assert.That(CasePictures.Png(Picture([])), Is.EqualTo(png), "the same input gives the same bytes");
    }

    [Test]
    public void What_must_be_withheld_and_what_is_allowed_is_drawn()
    {
        int without = Blue(Picture([]));
        int withheld = Blue(Picture([new CaseDemand("ECG-2", ChannelName.Ecg, DemandKind.Nothing, 4, 6, double.NaN, double.NaN)]));
        int allowed = Blue(Picture([new CaseDemand("RATE-1", ChannelName.Ecg, DemandKind.Values, 2, 10, 60, 70)]));
        int between = Blue(Picture([new CaseDemand("ECG-1", ChannelName.Ecg, DemandKind.Nothing, 4, 6, double.NaN, double.NaN)]));
        Assert.That(withheld, Is.GreaterThan(without + 100), "two lines of 135 pixels");
        Assert.That(allowed, Is.GreaterThan(without + 300), "two lines of eight seconds");
        Assert.That(between, Is.EqualTo(without), "what lies between beats of a requirement about marks is no place to be shown");
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
        requirements = ["ECG-1", "ECG-2", "RATE-1"]
        """;
}
