// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Output;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Edf;

/// <summary>What is written comes back as it was.</summary>
public class EdfRecordingTests
{
    private const long OddEnd = 2501;

    // Single samples, a stretch over records, the first one, the end.
    private static bool IsLost(long i) => i is 0 or 7 or 9 or 11 || (i >= 100 && i < 700) || i >= 1190;

    private static ushort Rare(long i) => (ushort)(i is >= 40 and < 45 ? 3 : i is >= 800 and < 810 ? 0x0110 : i >= 900 ? 0x0100 : 0);

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(4096)]
    public void RoundTrip_TwoDevicesGapsStatusAnyCut_IsExact(int ticks)
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.TwoDevices;
        Sample[][] samples = Samples(format, OddEnd, IsLost, Rare);
        EdfRecordingWriter writer = EdfStreams.Write(folder["rec"], format, samples, OddEnd, ticks: ticks);
        Assert.That(writer.FileNames, Is.EqualTo(new[] { "recording_chest.bdf", "recording_finger_1.bdf" }));
        using var reader = new EdfRecordingReader(folder["rec"]);
        Assert.That(reader.EndTick, Is.EqualTo(OddEnd));
        Assert.That(reader.Format.Channels, Is.EqualTo(format.Channels));
        Assert.That(EdfStreams.ReadAll(reader, ticks), Is.EqualTo(samples));
    }

    // The true end lies between two samples of the slower clock that one device alone has.
    [Test]
    public void RoundTrip_OneDeviceOfTwo_KeepsItsLastSample()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.TwoDevices;
        Sample[][] samples = Samples(format, OddEnd, _ => false, _ => 0);
        EdfStreams.Write(folder["rec"], format, samples, OddEnd);
        using var chest = new EdfRecordingReader(folder["rec/recording_chest.bdf"]);
        Assert.That((chest.Format.Clock.TicksPerSecond, chest.EndTick), Is.EqualTo((250L, 1251L)), "tick 2501 of 500 is 1250.5 of 250");
        Assert.That(EdfStreams.ReadAll(chest, 90).Single(), Is.EqualTo(samples[0]));
    }

    [TestCase(1)]
    [TestCase(250)]
    [TestCase(499)]
    [TestCase(500)]
    [TestCase(501)]
    [TestCase(1000)]
    [TestCase(1500)]
    public void RoundTrip_AnyEnd_IsKept(int endTick)
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.TwoDevices;
        Sample[][] samples = Samples(format, endTick, i => i % 50 == 49, _ => 0);
        EdfStreams.Write(folder["rec"], format, samples, endTick);
        using var reader = new EdfRecordingReader(folder["rec"]);
        Assert.That(reader.EndTick, Is.EqualTo(endTick));
        Assert.That(EdfStreams.ReadAll(reader, 64), Is.EqualTo(samples));
    }

    [Test]
    public void RoundTrip_NothingAtAll_IsKept()
    {
        using var folder = new TestFolder();
        EdfStreams.Write(folder["rec"], EdfStreams.Wrist(), Samples(EdfStreams.Wrist(), 0, _ => false, _ => 0), 0);
        using var reader = new EdfRecordingReader(folder["rec/recording.bdf"]);
        Assert.That(reader.EndTick, Is.Zero);
        Assert.That(reader.Format.Channels, Is.EqualTo(EdfStreams.Wrist().Channels));
    }

    // A change at every sample of the ECG is what a clipped, noisy signal gives at worst; it fits as lists.
    [Test]
    public void RoundTrip_StatusChangesWithEverySample_IsExact()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        Sample[][] samples = Samples(format, 2000, _ => false, _ => 0);
        samples[0] = [.. EdfStreams.Make(format, 0, 2000, i => i % 17 == 3, i => (ushort)(i % 2 * 16))];
        EdfStreams.Write(folder["rec"], format, samples, 2000);
        using var reader = new EdfRecordingReader(folder["rec"]);
        Assert.That(EdfStreams.ReadAll(reader, 100), Is.EqualTo(samples));
    }

    [Test]
    public void Write_MoreChangesThanFit_IsRefusedAndSaysWhatHelps()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        Sample[][] samples = Samples(format, 2000, _ => false, i => (ushort)(i * 31));
        Assert.That(
            () => EdfStreams.Write(folder["rec"], format, samples, 2000, new EdfWriteOptions { AnnotationBytes = 512 }),
            Throws.InstanceOf<EdfRefusedException>().With.Message.Contains("second 0 has more gaps and changes of status").And.Message.Contains("CSV or Parquet"));
        Assert.That(Directory.Exists(folder["rec"]), Is.False);
        Assert.That(() => EdfStreams.Write(folder["rec"], format, samples, 2000, new EdfWriteOptions { AnnotationBytes = 20_000 }), Throws.Nothing);
    }

    [Test]
    public void RoundTrip_SixteenBits_IsEdfAndExact()
    {
        using var folder = new TestFolder();
        var format = new StreamFormat([EdfStreams.Channel(ChannelName.Ecg, 250, 16, isSigned: true, 0.0005), EdfStreams.Channel(ChannelName.Red, 125, 12, isSigned: false, 2)]);
        Sample[][] samples = Samples(format, 1000, IsLost, Rare);
        EdfRecordingWriter writer = EdfStreams.Write(folder["rec"], format, samples, 1000);
        Assert.That(writer.FileNames, Is.EqualTo(new[] { "recording.edf" }));
        Assert.That(writer.Notes, Is.Empty);
        using var reader = new EdfRecordingReader(folder["rec/recording.edf"]);
        Assert.That(reader.Format.Channels, Is.EqualTo(format.Channels));
        Assert.That(EdfStreams.ReadAll(reader, 77), Is.EqualTo(samples));
        Assert.That(EdfFileReader.IsEdf(folder["rec/recording.edf"]), Is.True);
    }

    [Test]
    public void Write_Twice_GivesTheSameBytesWhateverTheCuts()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        Sample[][] samples = Samples(format, 2000, IsLost, Rare);
        EdfStreams.Write(folder["a"], format, samples, 2000, ticks: 1);
        EdfStreams.Write(folder["b"], format, samples, 2000, ticks: 1999);
        Assert.That(File.ReadAllBytes(folder["a/recording.bdf"]), Is.EqualTo(File.ReadAllBytes(folder["b/recording.bdf"])));
    }

    [Test]
    public void Truth_ThroughAnnotations_ComesBackInBodyTime()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        TruthEvent[] truth =
        [
            new(ChannelName.Ecg, MarkKind.RPeak, 123_456_789, 1.0 / 3, 0, BeatClass.Normal, TruthFlags.None),
            new(ChannelName.Ecg, MarkKind.QrsEnd, 163_456_789, double.NaN, 0, BeatClass.VentricularPremature, TruthFlags.Ambiguous | TruthFlags.Optional),
            new(ChannelName.Red, MarkKind.PulseFootTangent, 300_000_001, double.NaN, -1, BeatClass.None, TruthFlags.Overlapped),
            new(ChannelName.AccelX, MarkKind.CadencePerMin, 1_999_999_999, 110.5, -1, BeatClass.None, TruthFlags.None),
        ];
        ChannelClock[] clocks = [new(ChannelName.Ecg, 1_500_000, 0), new(ChannelName.Red, -40, 100)];
        EdfRecordingWriter written = EdfStreams.Write(
            folder["rec"], format, Samples(format, 2000, _ => false, _ => 0), 2000, new EdfWriteOptions { Clocks = clocks }, more: writer =>
            {
                foreach (TruthEvent row in truth)
                {
                    writer.AddTruth(row);
                }
            });
        Assert.That(written.AnnotationsLost, Is.Zero);
        using (var reader = new EdfTruthReader(folder["rec/recording.bdf"]))
        {
            foreach (TruthEvent row in truth)
            {
                Assert.That(reader.TryRead(out TruthEvent found), Is.True);
                Assert.That(found, Is.EqualTo(row));
            }

            Assert.That(reader.TryRead(out _), Is.False);
        }

        // Device time: declared delay and the clock's offset added, 123456789 + 12345 + 1500000.
        using var notes = new EdfAnnotationReader(folder["rec/recording.bdf"]);
        Assert.That(All(notes), Has.Some.EqualTo(new EdfAnnotation(124_969_134, null, "truth ecg r_peak value 0.3333333333333333 beat 0 label normal")));
    }

    [Test]
    public void Annotations_MarksAcquisitionGapsStatusEnd_SayWhatHappened()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        EdfStreams.Write(folder["rec"], format, Samples(format, 1750, i => i is >= 40 and < 60, i => (ushort)(i < 20 ? 0 : 3)), 1750, more: writer =>
        {
            writer.AddMark(new Mark { Channel = 0, Kind = MarkKind.RPeak, Sample = 125, Fraction256 = 128, HasValue = true, ValueMilli = 75_125, Quality = 200 });
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, 1_000, 2_000, double.NaN));
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, 2_000, 3_500, double.NaN));
            writer.AddAcquisition(new AcquisitionEvent(ChannelName.Red, AcquisitionKind.Setting, 5_000, 5_000, 12, SensorSetting.LedCurrentMa));
        });
        using var reader = new EdfAnnotationReader(folder["rec/recording.bdf"]);
        List<EdfAnnotation> all = All(reader);
        Assert.That(all, Has.Some.EqualTo(new EdfAnnotation(502_000_000, null, "mark ecg r_peak sample 125 value 75.125 quality 200")), "sample 125 and a half at 250 Hz");
        Assert.That(all, Has.Some.EqualTo(new EdfAnnotation(1_000, 2_500, "acquisition ecg unusable_lead_off")), "pieces joined");
        Assert.That(all, Has.Some.EqualTo(new EdfAnnotation(5_000, 0, "acquisition red setting_led_current_ma value 12")));
        Assert.That(all, Has.Some.EqualTo(new EdfAnnotation(800_000_000, 200_000_000, "gap accel_x 40:10")));
        Assert.That(all, Has.Some.EqualTo(new EdfAnnotation(80_000_000, null, "status ecg 20:3 lead_off_positive lead_off_negative")));
        Assert.That(all, Has.Some.EqualTo(new EdfAnnotation(3_500_000_000, 500_000_000, "end tick 1750 of 500")));
    }

    [Test]
    public void Annotations_MoreThanFit_AreCountedAndTheSamplesStay()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        Sample[][] samples = Samples(format, 1000, IsLost, Rare);
        EdfRecordingWriter writer = EdfStreams.Write(folder["rec"], format, samples, 1000, more: w =>
        {
            for (int i = 0; i < 20_000; i++)
            {
                w.AddTruth(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, i * 100_000L, 1, i, BeatClass.Normal, TruthFlags.None));
            }
        });
        using var reader = new EdfTruthReader(folder["rec/recording.bdf"]);
        int found = 0;
        while (reader.TryRead(out TruthEvent row))
        {
            Assert.That(row.BeatId, Is.EqualTo(found++));
        }

        Assert.That(found, Is.GreaterThan(10));
        Assert.That(writer.AnnotationsLost, Is.EqualTo(20_000 - found));
        using var stream = new EdfRecordingReader(folder["rec"]);
        Assert.That(EdfStreams.ReadAll(stream, 100), Is.EqualTo(samples));
    }

    [Test]
    public void Write_RateChanges_IsRefused()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["rec"]);
        using var writer = new EdfRecordingWriter(output, EdfStreams.Wrist());
        Assert.That(
            () => writer.AddAcquisition(new AcquisitionEvent(ChannelName.Red, AcquisitionKind.Setting, 0, 0, 4, SensorSetting.Decimation)),
            Throws.InstanceOf<EdfRefusedException>().With.Message.Contains("one rate per signal").And.Message.Contains("CSV or Parquet"));
        Assert.That(
            () => writer.AddAcquisition(new AcquisitionEvent(ChannelName.Red, AcquisitionKind.Setting, 0, 0, 1, SensorSetting.Decimation)), Throws.Nothing);
    }

    [Test]
    public void WhyNot_FormatsThatDoNotFit_SaysWhy()
    {
        ChannelFormat good = EdfStreams.Channel(ChannelName.Ecg, 250, 18, isSigned: true, 4.8 / (1 << 18));
        Assert.That(Refusal(good), Is.Null);
        Assert.That(Refusal(good, EdfContainer.Edf), Does.Contain("ecg has 18 bits, and EDF holds 16; write it as BDF"));
        Assert.That(Refusal(good with { RateHz = 20_480 }), Does.Contain("take 61440 bytes").And.Contains("CSV or Parquet"));
        Assert.That(Refusal(good with { RateHz = 20_394 }), Is.Null, "61440 - 256 bytes of annotations hold 20394 samples of 3 bytes");
        Assert.That(Refusal(good with { RateHz = 20_395 }), Is.Not.Null);
        Assert.That(Refusal(good with { UnitPerCode = 1e30 }), Does.Contain("does not fit the header"));
        Assert.That(Refusal(good with { Device = new string('d', 55) }), Does.Contain("1 to 54 characters"));
    }

    [Test]
    public void Writer_BlockLeftOut_IsRefused()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["rec"]);
        using var writer = new EdfRecordingWriter(output, Streams.Format());
        var block = new SampleBlock(Streams.Format(), 10);
        block.Begin(5, 10);
        Assert.That(() => writer.Write(block), Throws.ArgumentException.With.Message.Contains("ended at 0"));
    }

    internal static Sample[][] Samples(StreamFormat format, long endTick, Func<long, bool> isLost, Func<long, ushort> status) =>
        [.. format.Channels.Select((_, c) => EdfStreams.Make(format, c, endTick, isLost, status).ToArray())];

    internal static List<EdfAnnotation> All(EdfAnnotationReader reader)
    {
        var all = new List<EdfAnnotation>();
        while (reader.TryRead(out EdfAnnotation annotation))
        {
            all.Add(annotation);
        }

        return all;
    }

    private static string? Refusal(ChannelFormat channel, EdfContainer container = EdfContainer.Auto) =>
        EdfRecordingWriter.WhyNot(new StreamFormat([channel]), new EdfWriteOptions { Container = container });
}
