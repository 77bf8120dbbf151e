// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

public class RowRoundTripTests
{
    private static readonly Gen<TruthEvent> s_truth =
        from channel in Gen.Int[0, 7]
        from kind in Gen.Int[0, MarkKinds.All.Count - 1]
        from time in Gen.Long[0, 700_000_000_000_000]
        from value in Gen.OneOf(Gen.Double.Where(double.IsFinite), Gen.Const(double.NaN), Gen.Double[-200, 200])
        from beat in Gen.Long[-1, 1_000_000]
        from label in Gen.Int[0, 2]
        from flags in Gen.Int[0, 3]
        select new TruthEvent((ChannelName)channel, (MarkKind)kind, time, value, beat, (BeatClass)label, (TruthFlags)flags);

    [Test]
    public void Truth_AnyRows_ReadBackAsTheSame() =>
        s_truth.Array[0, 30].Sample(
            rows =>
            {
                string text = Streams.Written(stream =>
                {
                    using var writer = new TruthCsvWriter(stream);
                    Array.ForEach(rows, row => writer.Write(row));
                });
                using var reader = new TruthCsvReader(Streams.Of(text), "truth.csv");
                Assert.That(reader.ReadAll().ToArray(), Is.EqualTo(rows));
                return true;
            },
            iter: 300,
            threads: 2);

    [TestCase("")]
    [TestCase("de-DE")]
    [TestCase("tr-TR")]
    public void Writers_AnyCulture_WriteExactlyTheDocumentedText(string culture)
    {
        using var _ = new CultureScope(culture);
        string truth = Streams.Written(stream =>
        {
            using var writer = new TruthCsvWriter(stream);
            writer.Write(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, 1_234_567_890, 1.25, 3, BeatClass.Wide, TruthFlags.Ambiguous | TruthFlags.Optional));
            writer.Write(new TruthEvent(ChannelName.Infrared, MarkKind.PulseFootTangent, -5, double.NaN, -1, BeatClass.None, TruthFlags.None));
        });
        Assert.That(truth, Is.EqualTo(
            "channel,kind,time_ns,value,beat_id,label\n" +
            "ecg,r_peak,1234567890,1.25,3,wide;ambiguous;optional\n" +
            "infrared,pulse_foot_tangent,-5,,,\n"));

        string detections = Streams.Written(stream =>
        {
            using var writer = new DetectionsCsvWriter(stream, Streams.Format());
            writer.Write(new Mark { Channel = 0, Kind = MarkKind.RPeak, Sample = 251, Fraction256 = 64, Quality = 200, EmittedTick = 600 });
            writer.Write(new Mark
            {
                Channel = 1, Kind = MarkKind.ArrivalTimeMs, Sample = 120, HasValue = true, ValueMilli = -195_007, Quality = 255,
                PairedChannel = 0, PairedSample = 250, PairedFraction256 = 128, WindowSamples = 20, EmittedTick = 650,
            });
        });

        // The clock of 250 Hz and 100 Hz has 500 ticks a second.
        Assert.That(detections, Is.EqualTo(
            "channel,kind,sample,time_ns,value,quality,paired_time_ns,window_begin_ns,window_end_ns,emitted_time_ns\n" +
            "ecg,r_peak,251,1005000000,,200,,,,1200000000\n" +
            "infrared,arrival_time_ms,120,1200000000,-195.007,255,1002000000,1000000000,1200000000,1300000000\n"));

        using var reader = new DetectionsCsvReader(Streams.Of(detections), "detections.csv");
        Assert.That(reader.ReadAll().Last(), Is.EqualTo(new DetectionRow(
            ChannelName.Infrared, MarkKind.ArrivalTimeMs, 120, 1_200_000_000, -195.007, 255, 1_002_000_000, 1_000_000_000, 1_200_000_000, 1_300_000_000)));
    }

    [Test]
    public void Detections_OfAnotherDetector_NeedThreeColumnsInAnyOrder()
    {
        using var reader = new DetectionsCsvReader(Streams.Of("time_ns,kind,channel\n5000000,r_peak,ecg\n"), "d.csv");
        Assert.That(reader.ReadAll().Single(), Is.EqualTo(
            new DetectionRow(ChannelName.Ecg, MarkKind.RPeak, -1, 5_000_000, double.NaN, 255, null, null, null, 5_000_000)));
    }

    [Test]
    public void Acquisition_FormatAndIntervals_ReadBackAsTheSame()
    {
        AcquisitionRow[] own =
        [
            new(ChannelName.Ecg, "unusable_lead_off", 10, 20, double.NaN, "", "positive electrode off"),
            new(ChannelName.Ecg, AcquisitionItems.ClockSegmentPpm, 0, null, -12.5, "ppm", ""),
        ];
        string text = Streams.Written(stream =>
        {
            using var writer = new AcquisitionCsvWriter(stream);
            writer.WriteFormat(Streams.Format());
            Array.ForEach(own, row => writer.Write(row));
        });
        using var reader = new AcquisitionCsvReader(Streams.Of(text), "acquisition.csv");
        AcquisitionRow[] rows = [.. reader.ReadAll()];
        Assert.That(rows, Has.Length.EqualTo(12));
        Assert.That(rows[^2..], Is.EqualTo(own));
        Assert.That(rows.Where(r => r.IsUnusable).ToArray(), Is.EqualTo(own[..1]));
        Assert.That(
            rows.Where(r => r.Item == AcquisitionItems.DeclaredDelayNs).Select(r => (r.Channel, r.Value)),
            Is.EqualTo(new[] { (ChannelName.Ecg, 12_345.0), (ChannelName.Infrared, -3_000_000.0) }));
        Assert.That(rows.Single(r => r.Channel == ChannelName.Ecg && r.Item == AcquisitionItems.UnitPerCode).Value, Is.EqualTo(0.1 / 3));
    }

    [Test]
    public void Acquisition_LabelWithAComma_IsRefused()
    {
        using var writer = new AcquisitionCsvWriter(new MemoryStream());
        Assert.That(
            () => writer.Write(new AcquisitionRow(ChannelName.Ecg, "gap", 0, 1, double.NaN, "", "a,b")),
            Throws.ArgumentException.With.Message.Contains("no comma"));
    }

    [Test]
    public void BeatList_SamplesWithRate_BecomeRPeaksWithFlags()
    {
        const string Text = "shape,confidence,label,time_s,sample\nN,high,normal,0.3472,125\nV,low,wide,0.9528,343\nF,medium,wide,1.5333,552\n";
        using var reader = new BeatListCsvReader(Streams.Of(Text), "beats.csv", 360);
        TruthEvent[] beats = [.. reader.ReadAll()];
        Assert.That(beats.Select(b => b.TimeNs), Is.EqualTo(new long[] { 347_222_222, 952_777_777, 1_533_333_333 }));
        Assert.That(beats.Select(b => b.Label), Is.EqualTo(new[] { BeatClass.Normal, BeatClass.Wide, BeatClass.Wide }));
        Assert.That(beats.Select(b => b.Flags), Is.EqualTo(new[] { TruthFlags.None, TruthFlags.Optional, TruthFlags.Optional }));
        Assert.That(beats.Select(b => (b.Channel, b.Kind, b.BeatId)), Is.EqualTo(new[] { 0L, 1, 2 }.Select(i => (ChannelName.Ecg, MarkKind.RPeak, i))));
    }

    [Test]
    public void BeatList_TimesOnly_NeedNoRate()
    {
        using var reader = new BeatListCsvReader(Streams.Of("time_s\r\n0.3472\r\n1.5"), "beats.csv", null);
        Assert.That(reader.ReadAll().Select(b => b.TimeNs), Is.EqualTo(new long[] { 347_200_000, 1_500_000_000 }));
    }

    [Test]
    public void Intervals_Seconds_BecomeExactNanoseconds()
    {
        using var reader = new IntervalsCsvReader(Streams.Of("begin_s,end_s,reason\n42.45,44.00,no beat visible\n96.4,98.85,\n"), "i.csv");
        Assert.That(reader.ReadAll().ToArray(), Is.EqualTo(new[]
        {
            new IntervalRow(42_450_000_000, 44_000_000_000, "no beat visible"),
            new IntervalRow(96_400_000_000, 98_850_000_000, ""),
        }));
    }
}
