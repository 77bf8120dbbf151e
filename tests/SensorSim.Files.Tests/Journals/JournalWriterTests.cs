// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Journals;

namespace SensorSim.Files.Tests.Journals;

[TestFixture]
public sealed class JournalWriterTests
{
    /// <summary>The disk fills up at every possible byte of the second record; afterwards there is room, and the journal is opened again.</summary>
    [Test]
    public void Append_DiskFullAtEveryByte_LosesAndDoublesNothing([Values] bool isStuck)
    {
        for (int room = 13; room < 13 + 12; room++)
        {
            using var disk = new FullDisk();
            using (var writer = new JournalWriter(disk, "a.journal", 0, () => { }))
            {
                writer.Append("alpha"u8);
                disk.Room = room;
                disk.IsStuck = isStuck;
                Assert.That(() => writer.Append("beta"u8), Throws.InstanceOf<IOException>().With.Message.Contains("No space left on device").And.Message.Contains("make room"));
                Assert.That(() => writer.Append("gamma"u8), Throws.InstanceOf<IOException>(), "a journal that failed takes nothing more");
            }

            Assert.That(disk.ToArray(), Has.Length.EqualTo(isStuck ? room : 13), "a torn record is cut off where that works");
            Assert.That(Records(disk, out long end), Is.EqualTo(new[] { "alpha" }));
            using var again = new FullDisk();
            again.Write(disk.ToArray());
            using (var writer = new JournalWriter(again, "a.journal", end, () => { }))
            {
                writer.Append("beta"u8);
            }

            Assert.That(Records(again, out _), Is.EqualTo(new[] { "alpha", "beta" }), $"room for {room} bytes");
        }
    }

    [Test]
    public void Flush_DiskThatFails_SaysSo()
    {
        using var disk = new FullDisk();
        using var writer = new JournalWriter(disk, "a.journal", 0, () => throw new IOException("No space left on device"));
        writer.Append("alpha"u8);
        Assert.That(writer.Flush, Throws.InstanceOf<IOException>().With.Message.Contains("a.journal"));
    }

    [Test]
    public void FlushIfDue_OnceASecond_SendsToTheDisk()
    {
        var time = new HandTime();
        int sent = 0;
        using var disk = new FullDisk();
        using var writer = new JournalWriter(disk, "a.journal", 0, () => sent++, time);
        var seen = new List<int>();
        for (int quarter = 0; quarter < 12; quarter++)
        {
            writer.Append("alpha"u8);
            seen.Add(sent);
            time.Advance(0.25);
        }

        Assert.That(seen, Is.EqualTo(new[] { 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2 }));
        writer.FlushIfDue();
        Assert.That(sent, Is.EqualTo(3), "also while no record comes");
        time.Advance(5);
        writer.FlushIfDue();
        Assert.That(sent, Is.EqualTo(3), "and not when there is nothing new");
    }

    [Test]
    public void Take_FolderThatIsTaken_GivesNothing()
    {
        using var root = new TestFolder();
        string folder = root["new"];
        using (FolderLock? first = FolderLock.Take(folder, ".lock"))
        {
            Assert.That(first, Is.Not.Null);
            Assert.That(FolderLock.Take(folder, ".lock"), Is.Null);
        }

        Assert.That(Directory.GetFileSystemEntries(folder), Is.Empty);
        using FolderLock? next = FolderLock.Take(folder, ".lock");
        Assert.That(next, Is.Not.Null);
        Assert.That(FolderLock.Take(folder, ".lock"), Is.Null);
    }

    /// <summary>Many threads take and free one folder; two of them inside at once would show.</summary>
    [Test]
    [CancelAfter(60000)]
    public void Take_FromManyThreads_NeverGivesTwoLocks()
    {
        string folder = Directory.CreateTempSubdirectory("lock-").FullName;
        int inside = 0;
        int worst = 0;
        int taken = 0;
        Parallel.For(0, 3000, new ParallelOptions { MaxDegreeOfParallelism = 8 }, _ =>
        {
            using FolderLock? held = FolderLock.Take(folder, ".lock");
            if (held is not null)
            {
                int now = Interlocked.Increment(ref inside);
                InterlockedMax(ref worst, now);
                Thread.SpinWait(2000);
                Interlocked.Increment(ref taken);
                Interlocked.Decrement(ref inside);
            }
        });
        Directory.Delete(folder, recursive: true);
        Assert.That((worst, taken > 0), Is.EqualTo((1, true)));
    }

    private static void InterlockedMax(ref int place, int value)
    {
        int seen = Volatile.Read(ref place);
        while (value > seen)
        {
            int was = Interlocked.CompareExchange(ref place, value, seen);
            if (was == seen)
            {
                return;
            }

            seen = was;
        }
    }

    private static List<string> Records(MemoryStream disk, out long end)
    {
        var records = new List<string>();
        using var copy = new MemoryStream(disk.ToArray());
        end = JournalReader.ReadRecords(copy, r => records.Add(Encoding.UTF8.GetString(r)));
        return records;
    }

    private sealed class HandTime : TimeProvider
    {
        private long _now;

        public override long TimestampFrequency => 1000;

        public override long GetTimestamp() => _now;

        public void Advance(double seconds) => _now += (long)(1000 * seconds);
    }
}
