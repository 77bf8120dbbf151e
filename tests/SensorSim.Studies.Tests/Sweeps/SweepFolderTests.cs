// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Output;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Sweeps;

[TestFixture]
public sealed class SweepFolderTests
{
    private string _root = "";

    [SetUp]
    public void MakeFolder() => _root = Directory.CreateTempSubdirectory("sweep-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_root, recursive: true);

    [Test]
    public void Open_AfterRows_HasThem()
    {
        StudyPlan plan = SmallStudy.Plan();
        RunRow row = Begin(At("a"), plan, Shard.Whole, 2);
        using OpenFolder again = Open(At("a"), plan, Shard.Whole);
        Assert.That((again.Journal!.KeptCount, again.Journal.Count), Is.EqualTo((2, 2)));
        Assert.That(RowBytesTests.Same(again.Journal.Find(1)!, row));
    }

    [Test]
    public void Open_ByTwo_IsRefused()
    {
        StudyPlan plan = SmallStudy.Plan();
        using OpenFolder first = Open(At("a"), plan, Shard.Whole);
        Assert.That(() => Open(At("a"), plan, Shard.Whole), Throws.InstanceOf<IOException>().With.Message.Contains("another sweep is at work"));
    }

    [Test]
    public void Dispose_WithoutARow_LeavesNothing()
    {
        using (Open(At("a/b"), SmallStudy.Plan(), Shard.Whole))
        {
        }

        Assert.That(Directory.Exists(At("a/b")), Is.False);
    }

    [Test]
    public void Open_JournalOfAnotherStudy_IsRefusedAndStays()
    {
        Begin(At("a"), SmallStudy.Plan(), Shard.Whole, 1);
        byte[] before = File.ReadAllBytes(At("a/runs.journal"));
        Assert.That(
            () => Open(At("a"), SmallStudy.Plan(seeds: 5), Shard.Whole), Throws.InstanceOf<InputFileException>().With.Message.Contains("another study").And.Message.Contains("another folder"));
        Assert.That(File.ReadAllBytes(At("a/runs.journal")), Is.EqualTo(before));
    }

    [Test]
    public void Open_JournalOfOtherRequirements_GoesOn()
    {
        StudyPlan plan = SmallStudy.Plan();
        Begin(At("a"), plan, Shard.Whole, 2);
        using OpenFolder again = Open(At("a"), plan with { Requirements = [] }, Shard.Whole);
        Assert.That(again.Journal!.KeptCount, Is.EqualTo(2));
    }

    [Test]
    public void Open_JournalOfAnotherShard_IsRefused()
    {
        Begin(At("a"), SmallStudy.Plan(), new Shard(1, 3), 1);
        Assert.That(() => Open(At("a"), SmallStudy.Plan(), new Shard(2, 3)), Throws.InstanceOf<InputFileException>().With.Message.Contains("shard 1/3 was begun"));
        Assert.That(() => Open(At("a"), SmallStudy.Plan(), Shard.Whole), Throws.InstanceOf<InputFileException>().With.Message.Contains("not the whole study"));
    }

    [Test]
    public void Open_FinishedStudy_SaysSoAndRemovesWhatIsLeft()
    {
        StudyPlan plan = SmallStudy.Plan(seeds: 1);
        Finish(At("a"), plan);
        File.WriteAllText(At("a/runs.journal"), "left by a kill");
        Directory.CreateDirectory(At(".a.abcdefgh.ijk.partial"));
        Directory.CreateDirectory(At(".a.others.partial"));
        using (OpenFolder again = Open(At("a"), plan, Shard.Whole))
        {
            Assert.That(again.Folder.IsFinished);
        }

        Assert.That(Directory.GetFileSystemEntries(At("a")).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal), Is.EqualTo(
            new[] { "failure_points.csv", "runs.csv", "runs.parquet", "summary.json" }));
        Assert.That(Directory.GetDirectories(_root).Select(d => Path.GetFileName(d)), Is.EquivalentTo(new[] { "a", ".a.others.partial" }));
    }

    [Test]
    public void Open_FinishedAsSomethingElse_IsRefused()
    {
        StudyPlan plan = SmallStudy.Plan(seeds: 1);
        Finish(At("a"), plan);
        Assert.That(() => Open(At("a"), plan with { Title = "other" }, Shard.Whole), Throws.InstanceOf<InputFileException>().With.Message.Contains("results of another study"));
        Assert.That(() => Open(At("a"), plan, new Shard(1, 2)), Throws.InstanceOf<InputFileException>().With.Message.Contains("whole study"));
        File.WriteAllText(At("a/summary.json"), "[1");
        Assert.That(() => Open(At("a"), plan, Shard.Whole), Throws.InstanceOf<InputFileException>());
    }

    // Rows of this very study are made again to the same bytes, so nothing is lost; others would be.
    [Test]
    public void Open_RowsWithoutSummary_AreToldOrRefused()
    {
        StudyPlan plan = SmallStudy.Plan(seeds: 1);
        Finish(At("a"), plan);
        File.Delete(At("a/summary.json"));
        using (OpenFolder again = Open(At("a"), plan, Shard.Whole))
        {
            Assert.That(again.Folder.IsFinished, Is.False);
            Assert.That(again.Folder.Found, Does.StartWith($"{At("a")} holds the rows of this very study, but summary.json is missing"));
        }

        // Between putting rows and summary into place the process may have ended: it goes on.
        File.WriteAllText(At("a/tuning.journal"), "");
        using (OpenFolder again = Open(At("a"), plan, Shard.Whole))
        {
            Assert.That(again.Folder.Found, Is.Empty);
        }

        File.Delete(At("a/tuning.journal"));
        File.Delete(At("a/runs.journal"));
        Dictionary<string, byte[]> before = Directory.GetFiles(At("a")).ToDictionary(f => f, File.ReadAllBytes);
        Refused(plan with { Title = "other" }, "a/runs.parquet");
        File.WriteAllText(At("a/runs.parquet"), "no table");
        Refused(plan, "a/runs.parquet");
        File.Delete(At("a/runs.parquet"));
        Refused(plan, "a/runs.csv");
        File.WriteAllBytes(At("a/runs.parquet"), before[At("a/runs.parquet")]);
        Assert.That(Directory.GetFiles(At("a")).ToDictionary(f => f, File.ReadAllBytes), Is.EqualTo(before));

        void Refused(StudyPlan other, string file) => Assert.That(() => Open(At("a"), other, Shard.Whole), Throws.InstanceOf<InputFileException>()
            .With.Message.EqualTo($"{At(file)}: summary.json is missing beside it, and nothing tells that these are the rows of this study; name another folder, or delete this one."));
    }

    [Test]
    public void Merge_ThreeShards_GiveTheRowsOfTheWhole()
    {
        StudyPlan plan = SmallStudy.Plan();
        IReadOnlyList<RunRow> whole = SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), new MemoryLog(), 2);
        Shards(plan, 3);
        IReadOnlyList<RunRow> merged = ShardMerge.Read([At("3"), At("1"), At("2")], plan, SmallStudy.Identity(plan));
        Assert.That(merged, Has.Count.EqualTo(whole.Count));
        Assert.That(merged.Zip(whole).All(p => RowBytesTests.Same(p.First, p.Second)));
    }

    [Test]
    public void Merge_OfWhatDoesNotFit_IsRefused()
    {
        StudyPlan plan = SmallStudy.Plan();
        Shards(plan, 3);
        Begin(At("half"), plan, new Shard(3, 3), 1);
        Begin(At("of2"), plan, new Shard(1, 2), 3);
        Begin(At("other"), SmallStudy.Plan(seeds: 5), new Shard(3, 3), 3);

        Refused(["1", "2"], "give also 3/3");
        Refused(["1", "2", "1"], "give each shard once");
        Refused(["1", "2", "half"], "1 of its 2 runs");
        Refused(["1", "of2"], "parts of one division");
        Refused(["1", "2", "other"], "another study");
        Refused(["1", "none"], "no runs.journal");

        void Refused(string[] folders, string expected) => Assert.That(
            () => ShardMerge.Read([.. folders.Select(At)], plan, SmallStudy.Identity(plan)), Throws.InstanceOf<InputFileException>().With.Message.Contains(expected));
    }

    [Test]
    public void Merge_OfAnotherVersion_IsRefused()
    {
        StudyPlan plan = SmallStudy.Plan();
        StudyStamp stamp = StudyStamp.Of(plan, SmallStudy.Identity(plan), new Shard(1, 1)) with { ProgramVersion = "9.8.7" };
        Directory.CreateDirectory(At("1"));
        StudyJournal.Open(At("1/runs.journal"), stamp).Dispose();
        Assert.That(
            () => ShardMerge.Read([At("1")], plan, SmallStudy.Identity(plan)), Throws.InstanceOf<InputFileException>().With.Message.Contains("version 9.8.7"));
    }

    private string At(string name) => Path.Combine(_root, name);

    private static OpenFolder Open(string path, StudyPlan plan, Shard shard)
    {
        StudyIdentity identity = SmallStudy.Identity(plan);
        SweepFolder folder = SweepFolder.Open(path, identity, shard);
        try
        {
            return new OpenFolder(folder, folder.IsFinished ? null : folder.OpenJournal(SweepFolder.JournalName, plan, identity, shard));
        }
        catch
        {
            folder.Dispose();
            throw;
        }
    }

    private void Shards(StudyPlan plan, int count)
    {
        for (int n = 1; n <= count; n++)
        {
            Begin(At($"{n}"), plan, new Shard(n, count), int.MaxValue);
        }
    }

    /// <summary>Makes the first runs of a shard and leaves; gives the last of them.</summary>
    private static RunRow Begin(string path, StudyPlan plan, Shard shard, int count)
    {
        using OpenFolder folder = Open(path, plan, shard);
        using var maker = new RunMaker(plan, SmallStudy.Factories(plan));
        RunRow? last = null;
        foreach (long run in new FullPlanner(plan, shard).NextBatch([]).Take(count))
        {
            last = maker.Make(run);
            folder.Journal!.Add(last);
        }

        return last!;
    }

    private static void Finish(string path, StudyPlan plan)
    {
        StudyIdentity identity = SmallStudy.Identity(plan);
        IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), new MemoryLog(), 1);
        using var files = new OutputFolder(path);
        SmallStudy.Write(files, new SweepResults(new StudyResults(plan, rows), identity));
        files.Commit();
    }

    private sealed record OpenFolder(SweepFolder Folder, StudyJournal? Journal) : IDisposable
    {
        public void Dispose() => Folder.Dispose();
    }
}
