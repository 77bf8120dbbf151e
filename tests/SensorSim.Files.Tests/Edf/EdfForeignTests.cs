// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Edf;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Edf;

/// <summary>Files that others wrote: which signals are channels, units, rates, gaps between records, leniency.</summary>
public class EdfForeignTests
{
    [TestCase("ECG", "mV", ExpectedResult = "ecg")]
    [TestCase("ECG II", "uV", ExpectedResult = "ecg")]
    [TestCase("EKG V1", "V", ExpectedResult = "ecg")]
    [TestCase("MLII", "mV", ExpectedResult = "ecg")]
    [TestCase("Pleth", "nA", ExpectedResult = "infrared")]
    [TestCase("PPG_red", "", ExpectedResult = "red")]
    [TestCase("Pleth green", "a.u.", ExpectedResult = "green")]
    [TestCase("Light dark", "uA", ExpectedResult = "dark")]
    [TestCase("Accel X", "g", ExpectedResult = "accel_x")]
    [TestCase("acc-z", "m/s^2", ExpectedResult = "accel_z")]
    [TestCase("EKG1", "mV", ExpectedResult = "ecg")]
    [TestCase("ECG1-ECG2", "uV", ExpectedResult = "ecg")]
    [TestCase("IR_940nm", "nA", ExpectedResult = "infrared")]
    [TestCase("Red", "uA", ExpectedResult = "red")]
    [TestCase("Red", "", ExpectedResult = "", Description = "a colour without a current may be anything")]
    [TestCase("Resp chest", "uV", ExpectedResult = "")]
    [TestCase("V1", "", ExpectedResult = "", Description = "a lead without a voltage may be anything")]
    [TestCase("Light", "lx", ExpectedResult = "")]
    public string Open_Label_NamesTheChannel(string label, string dimension)
    {
        using var folder = new TestFolder();
        string path = Make(folder, Signal(label, dimension), Signal("Accel Y", "g"));
        using var reader = new EdfRecordingReader(path);
        return string.Join(' ', reader.Format.Channels.Where(c => c.Name != ChannelName.AccelY).Select(c => c.Name.Text()));
    }

    // Prefixes of the SI; standard gravity is 9.80665 m/s^2 (SI Brochure, 9th edition). 65534 steps from -32767 to 32767 over -1 to 1.
    [TestCase("ECG", "V", 1000)]
    [TestCase("ECG", "mV", 1)]
    [TestCase("ECG", "uV", 0.001)]
    [TestCase("ECG", "nV", 1e-6)]
    [TestCase("Pleth", "uA", 1000)]
    [TestCase("Pleth", "nA", 1)]
    [TestCase("Pleth", "pA", 0.001)]
    [TestCase("Accel X", "g", 1)]
    [TestCase("Accel X", "mg", 0.001)]
    [TestCase("Accel X", "m/s^2", 1 / 9.80665)]
    [TestCase("Accel X", "mm/s^2", 0.001 / 9.80665)]
    public void Open_Unit_IsConverted(string label, string dimension, double factor)
    {
        using var folder = new TestFolder();
        using var reader = new EdfRecordingReader(Make(folder, Signal(label, dimension)));
        Assert.That(reader.Format.Channels[0].UnitPerCode, Is.EqualTo(factor * 2 / 65_534).Within(1e-10).Percent);
        Assert.That(reader.Notes, Is.Empty);
    }

    [Test]
    public void Open_SeveralSignalsOfAName_TakesTheOneWhoseUnitFits()
    {
        using var folder = new TestFolder();
        string path = Make(folder, Signal("ECG HR", "bpm"), Signal("ECG II", "mV"), Signal("PPG quality", "%"), Signal("PPG wave", "a.u."), Signal("PPG light", "nA"));
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.Format.Channels.Select(c => c.Name), Is.EqualTo(new[] { ChannelName.Ecg, ChannelName.Infrared }));
        Assert.That(reader.Notes, Has.Count.EqualTo(3).And.One.Contains("\"ECG HR\" is measured in \"bpm\", which is no unit of ecg; it is left out")
            .And.One.Contains("\"PPG quality\" would be infrared too; \"PPG light\" is taken"));
        Assert.That(EdfStreams.ReadAll(reader, 100)[1].Take(2).Select(s => s.Code), Is.EqualTo(new[] { Code(4, 0), Code(4, 1) }));
    }

    [Test]
    public void Open_OnlySignalMeasuresSomethingElse_IsRefused()
    {
        using var folder = new TestFolder();
        Assert.That(
            () => new EdfRecordingReader(Make(folder, Signal("ECG HR", "bpm"))),
            Throws.InstanceOf<InputFileException>().With.Message.Contains("\"ECG HR\" is measured in \"bpm\"; ecg needs one of mV, uV, V"));
    }

    [TestCase(5, "mV")]
    [TestCase(5000, "uV")]
    [TestCase(3, "mV")]
    [TestCase(0.005, "V")]
    public void Open_ZeroBetweenTwoCodes_IsTheEvenOneWithEachPrefix(double largest, string dimension)
    {
        // Over -32768 to 32767 zero lies at -0.5 (Kemp et al., 1992: a straight line through both limits).
        using var folder = new TestFolder();
        EdfSignal signal = Signal("ECG", dimension) with { PhysicalMinimum = (decimal)-largest, PhysicalMaximum = (decimal)largest, DigitalMinimum = -32_768 };
        using var reader = new EdfRecordingReader(Make(folder, signal));
        Assert.That(reader.Format.Channels[0].ZeroCode, Is.Zero);
    }

    [Test]
    public void Open_FolderOfARecordingInTwoForms_ReadsItOnce()
    {
        using var folder = new TestFolder();
        string first = Make(folder, Signal("ECG", "mV"));
        File.Copy(first, folder["a.bdf"]);
        using var reader = new EdfRecordingReader(folder.Root);
        Assert.That(reader.Headers, Has.Count.EqualTo(1));
    }

    [Test]
    public void Open_MicroSignAndBlankUnitOfLight_AreTaken()
    {
        using var folder = new TestFolder();
        string path = Make(folder, Signal("ECG", "uV"), Signal("Pleth", ""));
        byte[] bytes = File.ReadAllBytes(path);
        bytes[256 + (2 * 96)] = 0xB5;
        File.WriteAllBytes(path, bytes);
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.Format.Channels[0].UnitPerCode, Is.EqualTo(0.002 / 65_534).Within(1e-10).Percent);
        Assert.That(reader.Format.Channels[1].UnitPerCode, Is.EqualTo(2.0 / 65_534).Within(1e-10).Percent);
        Assert.That(reader.Notes.Single(), Does.Contain("which is no current; one of it is taken for 1 nA"));
    }

    [Test]
    public void Open_Map_DecidesAlone()
    {
        using var folder = new TestFolder();
        string path = Make(folder, Signal("ECG", "mV"), Signal("chest 2", "uV"), Signal("x", "m/s^2"));
        var options = new EdfReadOptions
        {
            Map = new Dictionary<string, ChannelName> { ["CHEST 2"] = ChannelName.Ecg, ["x"] = ChannelName.AccelX },
            Inverted = new HashSet<ChannelName> { ChannelName.Ecg },
        };
        using var reader = new EdfRecordingReader(path, options);
        Assert.That(reader.Format.Channels.Select(c => (c.Name, c.Polarity)), Is.EqualTo(new[] { (ChannelName.Ecg, -1), (ChannelName.AccelX, 1) }));
        Assert.That(EdfStreams.ReadAll(reader, 9)[0][1].Code, Is.EqualTo(Code(1, 1)), "the second signal");
        Assert.That(
            () => new EdfRecordingReader(path, new EdfReadOptions { Map = new Dictionary<string, ChannelName> { ["chest"] = ChannelName.Ecg } }),
            Throws.InstanceOf<InputFileException>().With.Message.Contains("there is no signal \"chest\"; the signals are \"ECG\", \"chest 2\", \"x\""));
        Assert.That(
            () => new EdfRecordingReader(path, new EdfReadOptions { Map = new Dictionary<string, ChannelName> { ["x"] = ChannelName.Ecg } }),
            Throws.InstanceOf<InputFileException>().With.Message.Contains("\"x\" is measured in \"m/s^2\"; ecg needs one of mV, uV, V"));
    }

    [Test]
    public void Open_NothingToMap_NamesTheLabels()
    {
        using var folder = new TestFolder();
        Assert.That(
            () => new EdfRecordingReader(Make(folder, Signal("EEG Fpz-Cz", "uV"), Signal("EOG", "uV"))),
            Throws.InstanceOf<InputFileException>().With.Message.Contains("no signal is named as one that can be read (ECG, Pleth red,").And.Message.EndsWith("say which is which of \"EEG Fpz-Cz\", \"EOG\", such as --map \"LABEL=ecg\"."));
    }

    [TestCase("0.5", 100, 200)]
    [TestCase("2", 100, 50)]
    [TestCase("0.033333", 4, 120, Description = "a thirtieth of a second as far as eight characters hold it")]
    [TestCase("10", 5000, 500)]
    public void Open_RecordDuration_GivesTheRate(string duration, int samples, int rate)
    {
        using var folder = new TestFolder();
        string path = Make(folder, decimal.Parse(duration, System.Globalization.CultureInfo.InvariantCulture), Signal("ECG", "mV") with { SamplesPerRecord = samples });
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.Format.Channels[0].RateHz, Is.EqualTo(rate));
        Assert.That(reader.EndTick, Is.EqualTo(3 * samples));
        Assert.That(EdfStreams.ReadAll(reader, 7)[0].Select(s => s.Code), Is.EqualTo(Enumerable.Range(0, 3).SelectMany(r => Enumerable.Range(0, samples).Select(i => Code(0, (r * samples) + i)))));
    }

    [TestCase("3", 100, "33.333333 Hz")]
    [TestCase("4", 2, "0.5 Hz")]
    [TestCase("0.000001", 100, "100000000 Hz", Description = "a second of it would not fit into memory")]
    public void Open_RateThatIsNotWhole_IsRefused(string duration, int samples, string rate)
    {
        using var folder = new TestFolder();
        string path = Make(folder, decimal.Parse(duration, System.Globalization.CultureInfo.InvariantCulture), Signal("ECG", "mV") with { SamplesPerRecord = samples });
        Assert.That(() => new EdfRecordingReader(path), Throws.InstanceOf<InputFileException>().With.Message.Contains(rate + "; only whole rates from 1 to 1000000 Hz are read as ecg"));

        // As a plain signal it is fine: noise is resampled.
        using var signal = new EdfSignalReader(path);
        Assert.That(signal.RateHz, Is.EqualTo(samples / double.Parse(duration, System.Globalization.CultureInfo.InvariantCulture)).Within(1e-10).Percent);
    }

    // EDF+D: only the first annotation of a record says when it begins (Kemp and Olivan 2003). Begins at a quarter of a second, as the text allows.
    [Test]
    public void Open_RecordsWithGaps_JumpInTheIndex()
    {
        using var folder = new TestFolder();
        string path = Discontinuous(folder, 250_000_000, 1_250_000_000, 5_750_000_000);
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.Format.Clock.TicksPerSecond, Is.EqualTo(100));
        Assert.That(reader.EndTick, Is.EqualTo(650), "5.5 s and a record of 1 s");
        List<Sample>[] found = EdfStreams.ReadAll(reader, 13);
        int[] begins = [0, 100, 550];
        Assert.That(found[0].Select(s => (s.Index, s.Code)), Is.EqualTo(begins.SelectMany((b, r) => Enumerable.Range(0, 100).Select(i => ((long)b + i, Code(0, (r * 100) + i))))));
        Assert.That(found[1].Select(s => s.Index), Is.EqualTo(begins.SelectMany(b => Enumerable.Range(0, 50).Select(i => (b / 2L) + i))));

        using var notes = new EdfAnnotationReader(path);
        Assert.That(EdfRecordingTests.All(notes).Select(a => a.OnsetNs), Is.EqualTo(new[] { 0L, 1_000_000_000, 5_500_000_000 }), "from the first sample on");
        using var signal = new EdfSignalReader(path, "ECG");
        Assert.That(() => signal.Read(new double[300]), Throws.InstanceOf<InputFileException>().With.Message.Contains("record 3").And.Message.Contains("a gap of 3.5 s before it"));
    }

    [Test]
    public void Open_RecordsThatOverlapOrLieYearsApart_AreRefused()
    {
        using var folder = new TestFolder();
        Assert.That(
            () => new EdfRecordingReader(Discontinuous(folder, 0, 500_000_000, 2_000_000_000)),
            Throws.InstanceOf<InputFileException>().With.Message.Contains("record 2").And.Message.Contains("it begins at 0.5 s, before the end of the one before at 1 s"));
        Assert.That(
            () => new EdfRecordingReader(Discontinuous(folder, 0, 1_000_000_000, 40_000_000_000_000_000)),
            Throws.InstanceOf<InputFileException>().With.Message.Contains("record 3").And.Message.Contains("more than 366 days after the first"));
    }

    // What others are seen to write and what changes no number: taken. The numbers beside it are those of the untouched file.
    [TestCase(176, "10:11:12", Description = "time with colons")]
    [TestCase(168, "05.13.26", Description = "month 13")]
    [TestCase(236, "       3", Description = "number to the right")]
    [TestCase(236, "-1      ", Description = "never closed")]
    [TestCase(8, "Some One, born 1970", Description = "patient in free text")]
    [TestCase(88, "\0\0\0\0", Description = "zero bytes")]
    [TestCase(244, "1.0000  ", Description = "more decimals")]
    public void Open_HarmlessOddity_IsTaken(int at, string text)
    {
        using var folder = new TestFolder();
        string path = Make(folder, Signal("ECG", "mV"));
        byte[] bytes = File.ReadAllBytes(path);
        Encoding.Latin1.GetBytes(text).CopyTo(bytes, at);
        File.WriteAllBytes(path, bytes);
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.EndTick, Is.EqualTo(300));
        Assert.That(EdfStreams.ReadAll(reader, 50)[0].Select(s => s.Code), Is.EqualTo(Enumerable.Range(0, 300).Select(i => Code(0, i))));
    }

    [Test]
    public void Open_NeverClosedAndCutInARecord_GivesWholeRecordsAndSaysSo()
    {
        using var folder = new TestFolder();
        string path = Make(folder, Signal("ECG", "mV"));
        byte[] bytes = File.ReadAllBytes(path)[..^30];
        "-1      "u8.CopyTo(bytes.AsSpan(236));
        File.WriteAllBytes(path, bytes);
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.EndTick, Is.EqualTo(200));
        Assert.That(reader.Notes.Single(), Does.Contain("never closed by its writer; 170 bytes after its last whole record are left out"));
    }

    [Test]
    public void Open_OwnFileScaledAnewByAnotherProgram_IsReadByItsHeader()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        EdfStreams.Write(folder["rec"], format, EdfRecordingTests.Samples(format, 500, _ => false, _ => 0), 500);
        string path = folder["rec/recording.bdf"];
        byte[] bytes = File.ReadAllBytes(path);
        "1.2     "u8.CopyTo(bytes.AsSpan(256 + (7 * 112)));
        File.WriteAllBytes(path, bytes);
        using var reader = new EdfRecordingReader(path);
        Assert.That(reader.Format.Channels[0].UnitPerCode, Is.EqualTo(3.6 / (1 << 18)).Within(1e-12));
        Assert.That(reader.Format.Channels[0].Device, Is.EqualTo("recording"));
    }

    [Test]
    public void Open_FilesThatDoNotBelongTogether_AreRefused()
    {
        using var folder = new TestFolder();
        string first = Make(folder, Signal("ECG", "mV"));
        File.Move(first, folder["b.edf"]);
        Make(folder, Signal("ECG II", "mV"));
        Assert.That(() => new EdfRecordingReader(folder.Root), Throws.InstanceOf<InputFileException>().With.Message.Contains("ecg is in another file"));
        byte[] bytes = File.ReadAllBytes(folder["b.edf"]);
        "11"u8.CopyTo(bytes.AsSpan(176));
        File.WriteAllBytes(folder["b.edf"], bytes);
        Assert.That(() => new EdfRecordingReader(folder.Root), Throws.InstanceOf<InputFileException>().With.Message.Contains("begins at another time"));
    }

    internal static int Code(int signal, int i) => ((i * 257) + (signal * 1000)) % 60_000 - 30_000;

    internal static EdfSignal Signal(string label, string dimension) => new()
    {
        Label = label, Dimension = dimension, PhysicalMinimum = -1, PhysicalMaximum = 1, DigitalMinimum = -32_767, DigitalMaximum = 32_767, SamplesPerRecord = 100,
    };

    internal static string Make(TestFolder folder, params EdfSignal[] signals) => Make(folder, 1, signals);

    private static string Make(TestFolder folder, decimal duration, params EdfSignal[] signals)
    {
        string path = folder["a.edf"];
        using var writer = new EdfFileWriter(File.Create(path), Header(duration, EdfContinuity.Plain, signals));
        Records(writer, signals, 3, _ => { });
        return path;
    }

    internal static string Discontinuous(TestFolder folder, params long[] beginsNs)
    {
        string path = folder["d.edf"];
        EdfSignal[] signals = [Signal("ECG", "mV"), Signal("Accel X", "g") with { SamplesPerRecord = 50 }, EdfSignal.Annotations(isBdf: false, 30)];
        using var writer = new EdfFileWriter(File.Create(path), Header(1, EdfContinuity.Discontinuous, signals));
        Records(writer, signals[..2], beginsNs.Length, r =>
        {
            writer.BeginRecord(beginsNs[r]);
            Assert.That(writer.TryAnnotate(beginsNs[r], null, "here"), Is.True);
        });
        return path;
    }

    private static EdfHeader Header(decimal duration, EdfContinuity continuity, EdfSignal[] signals) => new()
    {
        Continuity = continuity, Recording = "Startdate 02-MAR-2026 X X X", Start = new DateTime(2026, 3, 2, 10, 11, 12), RecordDurationS = duration, Signals = signals,
    };

    private static void Records(EdfFileWriter writer, EdfSignal[] signals, int records, Action<int> begin)
    {
        for (int r = 0; r < records; r++)
        {
            begin(r);
            for (int s = 0; s < signals.Length; s++)
            {
                int n = signals[s].SamplesPerRecord;
                writer.Samples(s, Enumerable.Range(r * n, n).Select(i => Code(s, i)).ToArray());
            }

            writer.EndRecord();
        }

        writer.Complete();
    }
}
