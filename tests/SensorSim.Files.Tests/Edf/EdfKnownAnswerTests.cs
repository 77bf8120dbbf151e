// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using System.Text;
using SensorSim.Files.Edf;

namespace SensorSim.Files.Tests.Edf;

/// <summary>Three files known byte for byte.</summary>
/// <remarks>
/// The sums were taken of files put together by hand from the published layouts (Kemp et al. 1992; Kemp and Olivan 2003; the published description
/// of BDF+), which EDFlib 1.23, MNE 1.3.0 and BioSig 2.5.0 read with the values that were put in. The person in the second is the sample of the EDF+ text.
/// </remarks>
public class EdfKnownAnswerTests
{
    private static readonly DateTime s_start = new(2026, 3, 2, 10, 11, 12);

    [Test]
    public void Write_PlainEdf_IsTheKnownFile()
    {
        byte[] bytes = Write(Header(isBdf: false, EdfContinuity.Plain), 1, _ => { });
        Check(bytes, 1768, "6231738cdd4cfc7fe63597bc2462ae477b2681ae68fbe4cb8c582d42ddaf3938");
    }

    [Test]
    public void Write_EdfPlus_IsTheKnownFile()
    {
        EdfHeader header = Header(isBdf: false, EdfContinuity.Continuous) with
        {
            Patient = "MCH-0234567 F 02-MAY-1951 Haagse_Harry",
            Recording = "Startdate 02-MAR-2026 X X Sim01",
        };
        byte[] bytes = Write(header, 1, Annotate);
        Check(bytes, 2280, "cdaaca1d9e9e55c6b58095d33f94eeece0027a6da74621028cfb916a628da931");
    }

    [Test]
    public void Write_BdfPlus_IsTheKnownFile()
    {
        byte[] bytes = Write(Header(isBdf: true, EdfContinuity.Continuous), 256, Annotate);
        Check(bytes, 2908, "f078cb91850c77b2c9d55f8057c17a143cea2087b92a006fdea1428b582b5ff8");
    }

    [Test]
    public void Read_KnownFiles_GivesHeaderSamplesAndAnnotationsBack()
    {
        using var folder = new TestFolder();
        foreach ((bool isBdf, int factor) in new[] { (false, 1), (true, 256) })
        {
            EdfHeader header = Header(isBdf, EdfContinuity.Continuous);
            File.WriteAllBytes(folder["a"], Write(header, factor, w => w.TryAnnotate(1_250_000_000, 500_000_000, "Artefact", "again")));
            using var file = new EdfFileReader(folder["a"]);
            Assert.That(file.Header with { Signals = [] }, Is.EqualTo(header with { RecordCount = 4, Signals = [] }));
            Assert.That(file.Header.Signals, Is.EqualTo(header.Signals));
            var codes = new int[100];
            for (int r = 0; r < 4; r++)
            {
                file.Load(r);
                file.Samples(0, 0, codes);
                Assert.That(codes, Is.EqualTo(Sine(r).Select(c => c * factor)));
                file.Samples(1, 5, codes.AsSpan(0, 20));
                Assert.That(codes.Take(20), Is.EqualTo(Enumerable.Range(5, 20).Select(j => (1000 + (100 * r) + j) * factor)));
                Assert.That(file.RecordBeginNs(), Is.EqualTo(r * 1_000_000_000L));
            }

            using var notes = new EdfAnnotationReader(folder["a"]);
            Assert.That(notes.TryRead(out EdfAnnotation first), Is.True);
            Assert.That(first, Is.EqualTo(new EdfAnnotation(1_250_000_000, 500_000_000, "Artefact")));
            Assert.That(notes.TryRead(out EdfAnnotation second), Is.True);
            Assert.That(second, Is.EqualTo(first with { Text = "again" }));
        }
    }

    // -5 to 5 mV over -32768 to 32767: code 10000 is 1.525978485 mV and code 0 is 0.0000762951 mV; computed by hand and agreed by three readers.
    [TestCase(10000, 1.525978485)]
    [TestCase(0, 0.0000762951)]
    public void SignalReader_WorkedScale_GivesTheKnownValue(int code, double millivolts)
    {
        using var folder = new TestFolder();
        EdfHeader header = Header(isBdf: false, EdfContinuity.Plain);
        using (var writer = new EdfFileWriter(File.Create(folder["a"]), header))
        {
            writer.Samples(0, Enumerable.Repeat(code, 100).ToArray());
            writer.Samples(1, new int[25]);
            writer.EndRecord();
            writer.Complete();
        }

        using var reader = new EdfSignalReader(folder["a"], "ecg mlii");
        var values = new double[200];
        Assert.That(reader.Read(values), Is.EqualTo(100));
        Assert.That(values[99], Is.EqualTo(millivolts).Within(5e-10), "nine decimals are given");
        Assert.That((reader.RateHz, reader.Count, reader.Signal.Dimension), Is.EqualTo((100.0, 100L, "mV")));
    }

    // 1.25 s, 0.5 s, "Artefact" as bytes: worked from the text of EDF+ and read back by three readers.
    [Test]
    public void Annotation_Bytes_AreTheKnownOnes()
    {
        byte[] bytes = Write(Header(isBdf: false, EdfContinuity.Continuous), 1, w => w.TryAnnotate(1_250_000_000, 500_000_000, "Artefact"));
        Assert.That(Convert.ToHexString(bytes), Does.Contain("2B312E323515302E351441727465666163741400"));
    }

    internal static EdfHeader Header(bool isBdf, EdfContinuity continuity)
    {
        (int low, int high) = isBdf ? (-0x800000, 0x7FFFFF) : (-32768, 32767);
        var signals = new List<EdfSignal>
        {
            new()
            {
                Label = "ECG MLII", Transducer = "AgAgCl electrode", Dimension = "mV", PhysicalMinimum = -5, PhysicalMaximum = 5,
                DigitalMinimum = low, DigitalMaximum = high, Prefilter = "HP:0.5Hz LP:40Hz", SamplesPerRecord = 100,
            },
            new()
            {
                Label = "Pleth", Transducer = "optical finger sensor", Dimension = "uA", PhysicalMinimum = isBdf ? -8 : 0, PhysicalMaximum = 8,
                DigitalMinimum = isBdf ? low : 0, DigitalMaximum = high, SamplesPerRecord = 25,
            },
        };
        if (continuity != EdfContinuity.Plain)
        {
            signals.Add(EdfSignal.Annotations(isBdf, 32));
        }

        return new EdfHeader
        {
            IsBdf = isBdf,
            Continuity = continuity,
            Recording = "Startdate 02-MAR-2026 X X X",
            Start = s_start,
            RecordDurationS = 1,
            Signals = signals,
        };
    }

    internal static byte[] Write(EdfHeader header, int factor, Action<EdfFileWriter> annotate)
    {
        var memory = new MemoryStream();
        using (var writer = new EdfFileWriter(memory, header))
        {
            for (int r = 0; r < 4; r++)
            {
                writer.Samples(0, Sine(r).Select(c => c * factor).ToArray());
                writer.Samples(1, Enumerable.Range(0, 25).Select(j => (1000 + (100 * r) + j) * factor).ToArray());
                annotate(writer);
                writer.EndRecord();
            }

            writer.Complete();
        }

        return memory.ToArray();
    }

    internal static IEnumerable<int> Sine(int record) =>
        Enumerable.Range(100 * record, 100).Select(i => (int)Math.Round(10_000 * Math.Sin(2 * Math.PI * i / 100)));

    private static void Annotate(EdfFileWriter writer)
    {
        if (writer.RecordCount == 1)
        {
            Assert.That(writer.TryAnnotate(1_250_000_000, 500_000_000, "Artefact"), Is.True);
        }
        else if (writer.RecordCount == 2)
        {
            Assert.That(writer.TryAnnotate(2_500_000_000, null, "R peak", "Calibration"), Is.True);
        }
    }

    private static void Check(byte[] bytes, int length, string sum)
    {
        Assert.That(bytes, Has.Length.EqualTo(length));
        Assert.That(Convert.ToHexStringLower(SHA256.HashData(bytes)), Is.EqualTo(sum), Encoding.Latin1.GetString(bytes, 0, Math.Min(bytes.Length, 1024)));
    }
}
