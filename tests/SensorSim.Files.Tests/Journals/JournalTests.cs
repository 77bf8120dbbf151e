// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Journals;

namespace SensorSim.Files.Tests.Journals;

[TestFixture]
public sealed class JournalTests
{
    private static readonly byte[] s_header = "study 1"u8.ToArray();
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("journal-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void GoOn_AfterWriting_GivesEveryRecord()
    {
        Write("one", "", "three");
        Assert.That(Read(), Is.EqualTo(new[] { "one", "", "three" }));
    }

    /// <summary>
    /// The check value of CRC-32C over the digits 1 to 9 is E3069283: the catalogue of parametrised checksums (CRC-32/ISCSI), also the
    /// polynomial of RFC 3720, appendix B.4 (32 zero bytes give 8A9136AA; in the appendix as the bytes aa 36 91 8a). Values from memory.
    /// </summary>
    [TestCase("313233343536373839", 0xE3069283u)]
    [TestCase("0000000000000000000000000000000000000000000000000000000000000000", 0x8A9136AAu)]
    public void Create_Header_EndsWithCrc32C(string hex, uint expected)
    {
        // The sum is over everything before it: the head of 16 bytes too, so it is taken off by the sum's own definition, bit by bit.
        byte[] header = Convert.FromHexString(hex);
        using (Journal.Create(At, header))
        {
        }

        byte[] file = File.ReadAllBytes(At);
        Assert.That(BitConverter.ToUInt32(file, file.Length - 4), Is.EqualTo(BitByBit(file.AsSpan(0, file.Length - 4))));
        Assert.That(BitByBit(header), Is.EqualTo(expected), "the twin is itself the published sum");
    }

    [Test]
    public void GoOn_CutAtEveryByte_GivesTheRecordsBeforeTheCutAndTakesMore()
    {
        Write("alpha", "beta", "gamma");
        byte[] whole = File.ReadAllBytes(At);
        int head = 16 + s_header.Length + 4;
        int[] ends = [head, head + 8 + 5, head + 8 + 5 + 8 + 4, whole.Length];
        for (int cut = head; cut <= whole.Length; cut++)
        {
            File.WriteAllBytes(At, whole[..cut]);
            int kept = ends.Count(e => e <= cut) - 1;
            Assert.That(Append("new"), Is.EqualTo(new[] { "alpha", "beta", "gamma" }.Take(kept)), $"cut at byte {cut}");
            Assert.That(Read(), Is.EqualTo(new[] { "alpha", "beta", "gamma" }.Take(kept).Append("new")), $"cut at byte {cut}");
        }
    }

    [Test]
    public void GoOn_EveryBitOfTheEndTurned_NeverGivesAWrongRecord()
    {
        Write("alpha", "beta");
        byte[] whole = File.ReadAllBytes(At);
        int last = whole.Length - 8 - 4;
        for (int bit = 8 * last; bit < 8 * whole.Length; bit++)
        {
            byte[] turned = [.. whole];
            turned[bit / 8] ^= (byte)(1 << (bit % 8));
            File.WriteAllBytes(At, turned);
            Assert.That(Read(), Is.EqualTo(new[] { "alpha" }), $"bit {bit}");
        }
    }

    [Test]
    public void GoOn_ZerosBehindTheEnd_AreNoRecords()
    {
        Write("alpha");
        File.AppendAllBytes(At, new byte[4096]);
        Assert.That(Append("beta"), Is.EqualTo(new[] { "alpha" }));
        Assert.That(Read(), Is.EqualTo(new[] { "alpha", "beta" }));
    }

    [Test]
    public void GoOn_CheckThatRefuses_ChangesNothing()
    {
        Write("alpha");
        File.AppendAllText(At, "torn");
        byte[] before = File.ReadAllBytes(At);
        Assert.That(
            () => Journal.GoOn(At, _ => throw new InputFileException(At, 0, 0, "another study."), _ => { }),
            Throws.InstanceOf<InputFileException>());
        Assert.That(File.ReadAllBytes(At), Is.EqualTo(before));
    }

    [TestCase("")]
    [TestCase("run,point\n1,2\n and more text of a table")]
    public void GoOn_FileThatIsNoJournal_IsRefused(string text)
    {
        File.WriteAllText(At, text);
        Assert.That(() => Read(), Throws.InstanceOf<InputFileException>().With.Message.Contains("not a journal"));
    }

    [TestCase(8, "another format")]
    [TestCase(12, "damaged")]
    [TestCase(17, "damaged")]
    public void GoOn_TurnedByteOfTheHead_IsRefused(int place, string expected)
    {
        Write("alpha");
        byte[] bytes = File.ReadAllBytes(At);
        bytes[place] ^= 4;
        File.WriteAllBytes(At, bytes);
        Assert.That(() => Read(), Throws.InstanceOf<InputFileException>().With.Message.Contains(expected));
    }

    [Test]
    public void Create_AfterAKillInBetween_TakesThePlaceOfTheHalfMadeFile()
    {
        File.WriteAllText(At + ".partial", "half");
        Write("alpha");
        Assert.That(Read(), Is.EqualTo(new[] { "alpha" }));
        Assert.That(Directory.GetFiles(_folder), Has.Length.EqualTo(1));
    }

    private string At => Path.Combine(_folder, "a.journal");

    private void Write(params string[] records)
    {
        using JournalWriter writer = Journal.Create(At, s_header);
        foreach (string record in records)
        {
            writer.Append(Encoding.UTF8.GetBytes(record));
        }
    }

    private List<string> Append(string record)
    {
        var records = new List<string>();
        using JournalWriter writer = Journal.GoOn(At, h => Assert.That(h, Is.EqualTo(s_header)), r => records.Add(Encoding.UTF8.GetString(r)));
        writer.Append(Encoding.UTF8.GetBytes(record));
        return records;
    }

    private List<string> Read()
    {
        var records = new List<string>();
        Journal.Read(At, h => Assert.That(h, Is.EqualTo(s_header)), r => records.Add(Encoding.UTF8.GetString(r)));
        return records;
    }

    private static uint BitByBit(ReadOnlySpan<byte> bytes)
    {
        uint sum = uint.MaxValue;
        foreach (byte b in bytes)
        {
            sum ^= b;
            for (int bit = 0; bit < 8; bit++)
            {
                sum = (sum & 1) == 0 ? sum >> 1 : (sum >> 1) ^ 0x82F63B78;
            }
        }

        return ~sum;
    }
}
