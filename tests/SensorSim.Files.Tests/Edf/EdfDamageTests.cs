// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Edf;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Edf;

/// <summary>Damaged, cut and lying files: a sentence with file and place, never a crash, never memory that the file does not justify.</summary>
public class EdfDamageTests
{
    // A file of a few kilobytes may cost its own size, buffers, and little more.
    private const long MostBytes = 4_000_000;

    [TestCase(0, "2       ", "byte 0, version: found \"2\"; must be 0 and seven spaces (EDF), or the byte 255 and BIOSEMI (BDF)")]
    [TestCase(184, "768     ", "byte 184, bytes of the header: found \"768\"; 2 signals need 768", Description = "right, for scale")]
    [TestCase(184, "1024    ", "byte 184, bytes of the header: found \"1024\"; 2 signals need 768")]
    [TestCase(236, "4       ", "byte 236, number of records: 4 records of 400 bytes after the header need 1600 bytes, and 1200 are there; the file is cut off")]
    [TestCase(236, "2       ", "the file is too long, or its header is damaged")]
    [TestCase(236, "99999999", "byte 236, number of records")]
    [TestCase(236, "many    ", "byte 236, number of records: found \"many\"; must be a whole number from -1 to 99999999")]
    [TestCase(244, "0       ", "byte 244, duration of a record: found \"0\"; must be seconds from 0.000001")]
    [TestCase(244, "1e-300  ", "byte 244, duration of a record: found \"1e-300\"; must be seconds from 0.000001")]
    [TestCase(244, "NaN     ", "byte 244, duration of a record: found \"NaN\"; must be a number with a decimal point")]
    [TestCase(244, "-1      ", "byte 244, duration of a record")]
    [TestCase(244, "1e300   ", "byte 244, duration of a record")]
    [TestCase(244, "1,0     ", "byte 244, duration of a record: found \"1,0\"; must be a number with a decimal point")]
    [TestCase(252, "9999", "byte 184, bytes of the header: found \"768\"; 9999 signals need 2560000")]
    [TestCase(252, "0   ", "byte 252, number of signals: found \"0\"; must be a whole number from 1 to 9999")]
    [TestCase(256 + 208, "abc     ", "byte 464, physical minimum of signal 1: found \"abc\"; must be a number with a decimal point")]
    [TestCase(256 + 240, "-40000  ", "byte 496, digital minimum of signal 1: found \"-40000\"; must be a whole number from -32768 to 32767")]
    [TestCase(256 + 256, "-32767  ", "byte 512, digital maximum of signal 1: found \"-32767\"; must be above the digital minimum, -32767")]
    [TestCase(256 + 432, "99999999", "byte 688, samples per record of signal 1: found \"99999999\"; must be a whole number from 1 to 16777216")]
    [TestCase(256 + 432, "16777216", "a record has 33554632 bytes by its samples per record; at most 16777216 are read")]
    [TestCase(256 + 432, "0       ", "byte 688, samples per record of signal 1")]
    public void Open_LyingHeader_SaysWhereAndWhat(int at, string text, string message)
    {
        using var folder = new TestFolder();
        string path = EdfForeignTests.Make(folder, EdfForeignTests.Signal("ECG", "mV"), EdfForeignTests.Signal("Accel X", "g"));
        byte[] bytes = File.ReadAllBytes(path);
        bool isSame = bytes.AsSpan(at, text.Length).SequenceEqual(Encoding.Latin1.GetBytes(text));
        Encoding.Latin1.GetBytes(text).CopyTo(bytes, at);
        File.WriteAllBytes(path, bytes);
        if (isSame)
        {
            using var whole = new EdfRecordingReader(path);
            Assert.That(whole.EndTick, Is.EqualTo(300));
            return;
        }

        InputFileException? mistake = Assert.Throws<InputFileException>(() => new EdfRecordingReader(path).Dispose());
        Assert.That(mistake!.Message, Does.StartWith(path + ": ").And.Contain(message));
        Assert.That(mistake.Message, Does.Not.Contain("\n"));
    }

    [Test]
    public void Open_PhysicalLimitsThatAreTheSame_AreNoScale()
    {
        using var folder = new TestFolder();
        string path = EdfForeignTests.Make(folder, EdfForeignTests.Signal("ECG", "mV"));
        byte[] bytes = File.ReadAllBytes(path);
        "-1      "u8.CopyTo(bytes.AsSpan(256 + 112));
        File.WriteAllBytes(path, bytes);
        Assert.That(() => new EdfRecordingReader(path), Throws.InstanceOf<InputFileException>().With.Message.Contains("goes from -1 to -1 mV").And.Message.Contains("no scale"));
        Assert.That(() => new EdfSignalReader(path), Throws.InstanceOf<InputFileException>().With.Message.Contains("must differ"));
    }

    [TestCase("end tick 750 of 250", "end tick 750 of 250", "")]
    [TestCase("end tick 750 of 250", "end tick 999 of 250", "must name a tick within the last record")]
    [TestCase("end tick 750 of 250", "end tick 7.0 of 250", "must name a tick within the last record")]
    [TestCase("gap ecg 30:5", "gap ecg 30:0", "the annotation \"gap ecg 30:0\" does not fit the samples of its record")]
    [TestCase("gap ecg 30:5", "gap red 30:5", "does not fit")]
    [TestCase("gap ecg 30:5", "gap ecg 3:99", "", Description = "another gap, as good as the first")]
    [TestCase("gap ecg 30:5", "gap ecg -3:5", "does not fit")]
    [TestCase("status ecg 90:1", "status ecg 90:x", "does not fit")]
    [TestCase("status ecg 90:1", "status ecg 99999", "does not fit")]
    public void Read_LyingAnnotation_IsNamedWithItsRecord(string text, string lie, string message)
    {
        using var folder = new TestFolder();
        string path = Small(folder);
        byte[] bytes = File.ReadAllBytes(path);
        int at = bytes.AsSpan().IndexOf(Encoding.ASCII.GetBytes(text));
        Assert.That(at, Is.Positive);
        byte[] put = Encoding.ASCII.GetBytes(lie);
        Assert.That(put.Length - text.Length, Is.InRange(0, 1));
        put.AsSpan(0, text.Length).CopyTo(bytes.AsSpan(at));
        File.WriteAllBytes(path, bytes);
        if (message.Length == 0)
        {
            Assert.That(() => Drain(path), Throws.Nothing);
            return;
        }

        Assert.That(() => Drain(path), Throws.InstanceOf<InputFileException>().With.Message.Contains("record ").And.Message.Contains(message[..Math.Min(message.Length, 40)]));
    }

    [Test]
    public void Read_BytesOfTheHeaderReplaced_NeverCrashes() => TryHeaders(["own", "d"], step: 11);

    [Test]
    [Category("Slow")]
    public void Read_EveryByteOfTheHeaderReplacedByMuch_NeverCrashes() => TryHeaders(["own", "d", "foreign"], step: 1);

    [Test]
    public void Read_CutAnywhere_NeverCrashes()
    {
        using var folder = new TestFolder();
        byte[] whole = File.ReadAllBytes(Small(folder));
        for (int length = 0; length < whole.Length; length += length < 1300 ? 7 : 41)
        {
            InputFileException? mistake = Try(folder, whole.AsSpan(0, length));
            Assert.That(mistake, Is.Not.Null, $"{length} of {whole.Length} bytes");
        }
    }

    [TestCase(300)]
    [TestCase(20_000, Category = "Slow")]
    public void Read_RandomDamage_NeverCrashes(int rounds)
    {
        using var folder = new TestFolder();
        byte[] whole = File.ReadAllBytes(Small(folder));
        byte[] apart = File.ReadAllBytes(EdfForeignTests.Discontinuous(folder, 0, 1_000_000_000, 5_000_000_000));
        var draws = new KeyedRandom(20_260_302, "edf_damage");
        long at = 0;
        uint Next() => draws.Word(at++);
        int refused = 0;
        for (int round = 0; round < rounds; round++)
        {
            byte[] bytes = (byte[])(Next() % 2 == 0 ? whole : apart).Clone();
            int changes = 1 + (int)(Next() % 8);
            for (int i = 0; i < changes; i++)
            {
                bytes[Next() % (uint)bytes.Length] = (byte)Next();
            }

            refused += Try(folder, bytes) is null ? 0 : 1;
        }

        Assert.That(refused, Is.InRange(rounds / 50, rounds - 1), "some damage is seen, some lies in samples");
    }

    [Test]
    public void Read_RandomBytes_AreRefused()
    {
        using var folder = new TestFolder();
        var draws = new KeyedRandom(7, "edf_noise");
        for (int round = 0; round < 50; round++)
        {
            byte[] bytes = [.. Enumerable.Range(0, 3000).Select(i => (byte)draws.Word((round * 3000) + i))];
            Assert.That(Try(folder, bytes), Is.Not.Null);
            "0       "u8.CopyTo(bytes);
            Assert.That(Try(folder, bytes), Is.Not.Null);
        }
    }

    private static void TryHeaders(string[] kinds, int step)
    {
        using var folder = new TestFolder();
        foreach (string kind in kinds)
        {
            byte[] whole = File.ReadAllBytes(kind switch
            {
                "own" => Small(folder),
                "d" => EdfForeignTests.Discontinuous(folder, 0, 1_000_000_000, 5_000_000_000),
                _ => EdfForeignTests.Make(folder, EdfForeignTests.Signal("ECG", "mV"), EdfForeignTests.Signal("Accel X", "g")),
            });
            int header = int.Parse(Encoding.ASCII.GetString(whole, 184, 8), System.Globalization.CultureInfo.InvariantCulture);
            for (int at = 0; at < header; at += step)
            {
                foreach (byte put in new byte[] { (byte)'9', (byte)'-', (byte)'0', 0, 0xFF, (byte)(whole[at] ^ 1), (byte)(whole[at] ^ 0x80) }.AsSpan(0, step == 1 ? 7 : 3))
                {
                    byte[] bytes = (byte[])whole.Clone();
                    bytes[at] = put;
                    Try(folder, bytes);
                }
            }
        }
    }

    // Opens and reads everything that can be read; what is thrown must be an InputFileException, and memory must stay small.
    private static InputFileException? Try(TestFolder folder, ReadOnlySpan<byte> bytes)
    {
        string path = folder["damaged"];
        File.WriteAllBytes(path, bytes);
        long before = GC.GetAllocatedBytesForCurrentThread();
        InputFileException? mistake = null;
        foreach (Action<string> read in new Action<string>[] { Drain, DrainAnnotations, DrainTruth, DrainSignal })
        {
            try
            {
                read(path);
            }
            catch (InputFileException e)
            {
                Assert.That(e.Message, Does.StartWith(path).And.Not.Contain("\n"));
                mistake ??= e;
            }
        }

        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.LessThan(MostBytes));
        return mistake;
    }

    private static void Drain(string path)
    {
        using var reader = new EdfRecordingReader(path);

        // A damaged rate may claim a clock of a gigahertz or a gap of months: what is read is bounded by blocks, whatever the file says.
        long ticks = Math.Max(1, Math.Min(reader.EndTick, 5_000));
        var block = new SampleBlock(reader.Format, ticks);
        for (int i = 0; i < 20 && reader.PositionTick < reader.EndTick; i++)
        {
            reader.Read(block, Math.Min(reader.EndTick, reader.PositionTick + ticks));
        }
    }

    private static void DrainAnnotations(string path)
    {
        using var reader = new EdfAnnotationReader(path);
        while (reader.TryRead(out _))
        {
        }
    }

    private static void DrainTruth(string path)
    {
        using var reader = new EdfTruthReader(path);
        while (reader.TryRead(out _))
        {
        }
    }

    private static void DrainSignal(string path)
    {
        using var reader = new EdfSignalReader(path, "ECG");
        var values = new double[1000];
        while (reader.Read(values) > 0)
        {
        }
    }

    private static string Small(TestFolder folder)
    {
        var format = new StreamFormat([EdfStreams.Channel(ChannelName.Ecg, 125, 18, isSigned: true, 4.8 / (1 << 18)), EdfStreams.Channel(ChannelName.AccelX, 50, 16, isSigned: true, 16.0 / (1 << 16))]);
        Sample[][] samples = EdfRecordingTests.Samples(format, 750, i => i is >= 30 and < 35, i => (ushort)(i is >= 90 and < 110 ? 1 : 0));
        string name = Path.GetRandomFileName();
        EdfStreams.Write(folder[name], format, samples, 750, new EdfWriteOptions { AnnotationBytes = 510 }, more: w =>
            w.AddTruth(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, 1_250_000_000, 1.5, 3, BeatClass.Normal, TruthFlags.None)));
        return folder[name + "/recording.bdf"];
    }
}
