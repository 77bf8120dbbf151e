// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Runtime.Versioning;
using SensorSim.Studies.Clusters;

namespace SensorSim.Studies.Tests.Clusters;

/// <summary>What the scripts do, run by a shell with a stand-in for program and scheduler; the real scheduler is asked in tests/cluster.</summary>
[TestFixture]
[Platform(Exclude = "Win", Reason = "The scripts are of a POSIX shell.")]
[UnsupportedOSPlatform("windows")]
public sealed class SlurmScriptsTests
{
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory().FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void Parts_OneTask_MakesItsPart()
    {
        (int code, string output) = RunParts(exitCode: 0, restarts: null);
        Assert.That(code, Is.Zero);
        Assert.That(output, Is.EqualTo($"sweep /data/a b.toml --shard 3/7 --workers 2 --out {_folder}/part-3\n"));
    }

    [TestCase(1, 0, TestName = "a detector that did not answer is a result")]
    [TestCase(2, 2, TestName = "wrong input fails the task")]
    [TestCase(3, 3, TestName = "a full disk fails the task")]
    public void Parts_OtherEnds_AreToldTheScheduler(int exitCode, int told) => Assert.That(RunParts(exitCode, null).Code, Is.EqualTo(told));

    [Test]
    public void Parts_KilledProgram_AsksForItsPlaceInTheQueueAgain()
    {
        string output = RunParts(exitCode: 137, restarts: null).Output;
        Assert.That(output, Does.Contain("scontrol requeue 41_3\n"));
    }

    [Test]
    public void Parts_KilledEveryTime_GivesUp()
    {
        (int code, string output) = RunParts(exitCode: 137, restarts: SlurmScripts.MostRestarts);
        Assert.That(code, Is.EqualTo(137));
        Assert.That(output, Does.Not.Contain("requeue"));
    }

    [Test]
    public void Join_AllParts_AreNamedInOrder()
    {
        string script = SlurmScripts.Join(Job("echo"));
        string parts = string.Join(' ', Enumerable.Range(1, 7).Select(p => $"{_folder}/part-{p}"));
        Assert.That(Shell.Run(script).Output, Is.EqualTo($"sweep merge /data/a b.toml {parts} --out {_folder}/result\n"));
    }

    [Test]
    public void Parts_FolderWithASpace_IsRefusedInOneSentence() => Assert.That(
        () => SlurmScripts.Parts(Job("echo") with { Folder = "/data/my study" }),
        Throws.TypeOf<NotSupportedException>().With.Message.Contains("/data/my study"));

    [TestCase(100, 1000, 0.5, 1, ExpectedResult = 50)]
    [TestCase(10, 1000, 0.5, 1, ExpectedResult = 10)]
    [TestCase(100, 1000, 0.5, 2, ExpectedResult = 25)]
    [TestCase(100, 1000, 0.001, 1, ExpectedResult = 1)]
    [TestCase(100, 3, 60.0, 1, ExpectedResult = 3)]
    public int PartCounts_Of_NoPartIsShorterThanTenSeconds(int wanted, long runs, double secondsPerRun, int cores) =>
        PartCounts.Of(wanted, runs, secondsPerRun, cores);

    private (int Code, string Output) RunParts(int exitCode, int? restarts)
    {
        string program = Path.Combine(_folder, "program");
        string scheduler = Path.Combine(_folder, "scontrol");
        File.WriteAllText(program, $"#!/bin/sh\necho \"$@\"\nexit {exitCode.ToString(CultureInfo.InvariantCulture)}\n");
        File.WriteAllText(scheduler, "#!/bin/sh\necho scontrol \"$@\"\nexit 1\n");
        foreach (string file in new[] { program, scheduler })
        {
            File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        }

        var variables = new List<(string, string)>
        {
            ("SLURM_ARRAY_TASK_ID", "3"), ("SLURM_ARRAY_JOB_ID", "41"), ("PATH", $"{_folder}:{Environment.GetEnvironmentVariable("PATH")}"),
        };
        if (restarts is int count)
        {
            variables.Add(("SLURM_RESTART_COUNT", count.ToString(CultureInfo.InvariantCulture)));
        }

        return Shell.Run(SlurmScripts.Parts(Job(program)), [.. variables]);
    }

    private ClusterJob Job(string program) => new()
    {
        Command = [program],
        StudyPath = "/data/a b.toml",
        Folder = _folder,
        PartCount = 7,
        CoresPerPart = 2,
    };
}
