// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Cli.Output;

namespace SensorSim.Cli.Tests;

/// <summary><c>sweep</c> and <c>sweep merge</c>, in this process.</summary>
[TestFixture]
public sealed class SweepTests : CommandTest
{
    private static readonly string[] s_files = ["failure_points.csv", "runs.csv", "runs.parquet", "summary.json"];

    [Test]
    public void Sweep_SmallStudy_WritesItsFilesAndATable()
    {
        Answer answer = Command.Run("sweep", Study(), "--out", At("out"));
        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        Assert.That(Ours(At("out")).Keys, Is.EquivalentTo(s_files));
        Assert.That(Directory.GetFiles(At("out")).Select(f => Path.GetFileName(f)), Does.Not.Contain("runs.journal").And.Not.Contain(".runs.lock"));
        Assert.That(File.ReadAllLines(At("out", "runs.csv")), Has.Length.EqualTo(1 + 6));
        Assert.That(answer.Out, Does.Contain("small study").And.Contain("r_peak_sensitivity_min").And.Contain("6 of 6 runs"));
    }

    [Test]
    public void Sweep_Json_PrintsTheSummary()
    {
        Answer answer = Command.Run("sweep", Study(), "--out", At("out"), "--json");
        Assert.That(answer.Out, Is.EqualTo(File.ReadAllText(At("out", "summary.json"))));
        Assert.That(JsonDocument.Parse(answer.Out).RootElement.GetProperty("made_run_count").GetInt32(), Is.EqualTo(6));
    }

    [Test]
    public void Sweep_Again_SaysThatItIsDone()
    {
        Command.Run("sweep", Study(), "--out", At("out"));
        Dictionary<string, byte[]> before = Contents(At("out"));
        Answer again = Command.Run("sweep", Study(), "--out", At("out"), "--json");
        Assert.That(again.Code, Is.EqualTo(ExitCodes.Done));
        Assert.That(again.Error, Does.Contain("finished results of this very study"));
        Assert.That(again.Out, Is.EqualTo(File.ReadAllText(At("out", "summary.json"))));
        Assert.That(Contents(At("out")), Is.EqualTo(before));
    }

    // One line, and not first another that says that all is there.
    [TestCase(true, "this is no complete Parquet file; sweep the study into a new folder.")]
    [TestCase(true, "this is no complete Parquet file; sweep the study into a new folder.", "--json")]
    [TestCase(false, "runs.parquet is missing; sweep the study into a new folder.")]
    public void Sweep_FinishedWithDamagedRows_SaysOnlyThat(bool isThere, string message, params string[] more)
    {
        Command.Run("sweep", Study(), "--out", At("out"));
        byte[] whole = File.ReadAllBytes(At("out", "runs.parquet"));
        File.Delete(At("out", "runs.parquet"));
        if (isThere)
        {
            File.WriteAllBytes(At("out", "runs.parquet"), whole[..500]);
        }

        string place = isThere ? At("out", "runs.parquet") : At("out");
        Assert.That(Command.Refused(ExitCodes.WrongInput, ["sweep", Study(), "--out", At("out"), .. more]), Is.EqualTo(new[] { $"{place}: {message}" }));
    }

    [Test]
    public void Sweep_FinishedWithoutItsSummary_SaysSoAndMakesTheSameFiles()
    {
        Command.Run("sweep", Study(), "--out", At("out"));
        Dictionary<string, byte[]> before = Contents(At("out"));
        File.Delete(At("out", "summary.json"));
        Answer again = Command.Run("sweep", Study(), "--out", At("out"));

        Assert.That(again.Code, Is.EqualTo(ExitCodes.Done), again.Error);
        Assert.That(again.Messages[0], Is.EqualTo(
            $"sensorsim: {At("out")} holds the rows of this very study, but summary.json is missing, so it does not count as finished: all files are made again"));
        Assert.That(Contents(At("out")), Is.EqualTo(before));
    }

    [TestCase("")]
    [TestCase("[tuning]\nfirst_seed = 5001\nseed_count = 2\n")]
    public void Sweep_Again_PrintsTheSameTable(string tuning)
    {
        string study = Study();
        if (tuning.Length > 0)
        {
            File.AppendAllText(study, $"\n[[vary]]\nkey = \"detector.beat_threshold_percent\"\nvalues = [100, 200]\n\n{tuning}");
        }

        Answer first = Command.Run("sweep", study, "--out", At("out"));
        Answer again = Command.Run("sweep", study, "--out", At("out"));

        Assert.That(first.Out, Does.Contain("r_peak_sensitivity_min").And.Contain("no. 1: "), first.Error);
        Assert.That((again.Code, again.Out), Is.EqualTo((first.Code, first.Out)), again.Error);
    }

    [Test]
    public void Sweep_Table_HasNoTwoEmptyLinesAndCountsInWords()
    {
        Answer answer = Command.Run("sweep", Study(), "--out", At("out"));

        Assert.That(answer.Out, Does.Not.Contain("\n\n\n").And.Contain("2 points, 3 seeds, 1 detector\n"));
    }

    [TestCase("no. 1", 1)]
    [TestCase("no. 1, 2", 1, 2)]
    [TestCase("no. 1 to 3", 1, 2, 3)]
    [TestCase("no. 1, 3 to 6, 9, 10", 1, 3, 4, 5, 6, 9, 10)]
    public void SweepTable_Numbers_DrawsNeighboursTogether(string expected, params int[] numbers) => Assert.That(SweepTable.Numbers(numbers), Is.EqualTo(expected));

    [Test]
    public void Sweep_Interrupted_GoesOnToTheSameFiles([Values(1, 2)] int workers)
    {
        Command.Run("sweep", Study(), "--out", At("straight"));
        using var interrupt = new CancellationTokenSource();
        Answer first = new(0, "", "");
        var sweep = new Thread(() => first = Command.Run(interrupt.Token, "sweep", Study(), "--out", At("out"), "--workers", $"{workers}"));
        sweep.Start();
        SpinWait.SpinUntil(() => Length(At("out", "runs.journal")) > 600 || !sweep.IsAlive);
        interrupt.Cancel();
        sweep.Join();
        Assume.That(first.Code, Is.EqualTo(ExitCodes.Interrupted), "a machine fast enough may be done before the interrupt");

        // All six when the interrupt comes while the report is written.
        Assert.That(first.Error, Does.Match("interrupted; [1-6] runs? (is|are) kept in"));
        Assert.That(File.Exists(At("out", "summary.json")), Is.False);

        Answer second = Command.Run("sweep", Study(), "--out", At("out"));
        Assert.That(second.Error, Does.Match("going on: [1-6] of 6 runs are there"));
        Assert.That(Contents(At("out")), Is.EqualTo(Contents(At("straight"))));
    }

    // Every run fails, so that some are made again when all six are made; each of those waits for another, which must not come.
    [Test]
    [NonParallelizable]
    public void Sweep_OneWorker_IsOneAlsoForRunsMadeAgain()
    {
        int[] counts = [0, 0, 6];
        AppDomain.CurrentDomain.SetData(CrowdDetector.Counts, counts);
        string guest = FormattableString.Invariant($"adapter = \"assembly\"\nfile = '{typeof(CrowdDetector).Assembly.Location}'\nclass = \"{typeof(CrowdDetector).FullName}\"");
        string study = Write("crowd.toml", File.ReadAllText(Study()).Replace("adapter = \"library\"", guest, StringComparison.Ordinal));
        Answer answer = Command.Run("sweep", study, "--out", At("out"), "--workers", "1");
        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        Assert.That(Directory.GetFiles(At("out", "report", "figures"), "worst*.png"), Has.Length.GreaterThan(1));
        Assert.That(counts[..2], Is.EqualTo(new[] { 0, 1 }));
        Assert.That(counts[2], Is.LessThan(-1), "runs made again");
    }

    [Test]
    public void Merge_ThreeShards_GiveTheFilesOfOneMachine()
    {
        Command.Run("sweep", Study(), "--out", At("straight"));
        for (int n = 1; n <= 3; n++)
        {
            Answer shard = Command.Run("sweep", Study(), "--out", At($"part{n}"), "--shard", $"{n}/3");
            Assert.That(shard.Code, Is.EqualTo(ExitCodes.Done), shard.Error);
            Assert.That(shard.Out, Does.Contain($"shard {n}/3 is complete: 2 runs"));
        }

        Answer merged = Command.Run("sweep", "merge", Study(), At("part2"), At("part3"), At("part1"), "--out", At("whole"));
        Assert.That(merged.Code, Is.EqualTo(ExitCodes.Done), merged.Error);
        Assert.That(Contents(At("whole")), Is.EqualTo(Contents(At("straight"))));
    }

    [Test]
    public void Merge_WithAGap_IsRefused()
    {
        Command.Run("sweep", Study(), "--out", At("part1"), "--shard", "1/2");
        string[] messages = Command.Refused(ExitCodes.WrongInput, "sweep", "merge", Study(), At("part1"), "--out", At("whole"));
        Assert.That(messages, Is.EqualTo(new[] { $"{At("part1")}: with this folder 1 of 2 shards are there; give also 2/2." }));
        Assert.That(Directory.Exists(At("whole")), Is.False);
    }

    [Test]
    public void Merge_IntoAFolderWithAJournal_IsRefused()
    {
        Command.Run("sweep", Study(), "--out", At("part1"), "--shard", "1/1000");
        Assert.That(Command.Refused(ExitCodes.WrongInput, "sweep", "merge", Study(), At("part1"), "--out", At("part1"))[0], Does.Contain("a sweep was begun in this folder"));
    }

    [TestCase("4/3")]
    [TestCase("1")]
    public void Sweep_WrongShard_IsRefused(string shard) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "sweep", Study(), "--out", At("out"), "--shard", shard)[0], Does.StartWith($"--shard {shard} must be I/N"));

    [Test]
    public void Sweep_WithoutOut_IsRefused() =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "sweep", Study())[0], Does.StartWith("--out must name a folder"));

    [Test]
    public void Sweep_MissingStudy_IsRefused() =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "sweep", At("none.toml"), "--out", At("out"))[0], Does.Contain("none.toml"));

    [Test]
    public void Sweep_FolderOfAnotherStudy_IsRefused()
    {
        Command.Run("sweep", Study(), "--out", At("out"));
        string other = Write("other.toml", File.ReadAllText(Study()).Replace("seed_count = 3", "seed_count = 2", StringComparison.Ordinal));
        Assert.That(Command.Refused(ExitCodes.WrongInput, "sweep", other, "--out", At("out"))[0], Does.Contain("results of another study"));
    }

    [Test]
    public void Sweep_HelpOfMerge_HasItsExample()
    {
        Answer help = Command.Run("sweep", "merge", "--help");
        Assert.That((help.Code, help.Out.Contains("sensorsim sweep merge waveforms", StringComparison.Ordinal)), Is.EqualTo((0, true)));
        Assert.That(Command.Run("sweep", "merge", "--none").Error, Does.Contain("try: sensorsim sweep merge --help"));
    }

    /// <summary>A study of six runs, two of them in strong noise.</summary>
    private string Study()
    {
        Scenario("[ecg_noise]\nmuscle_snr_db = 24\n", 14);
        return Write("study.toml", SmallStudyText.Of("s.toml", seeds: 3));
    }

    private static Dictionary<string, byte[]> Ours(string folder) =>
        Contents(folder).Where(f => s_files.Contains(f.Key)).ToDictionary(f => f.Key, f => f.Value, StringComparer.Ordinal);

    private static long Length(string path) => File.Exists(path) ? new FileInfo(path).Length : 0;
}
