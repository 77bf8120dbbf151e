// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Cli.Tests;

/// <summary>A disk that is really full: a small one in memory. Needs Linux and the right to mount; elsewhere the test says that it was left out.</summary>
[TestFixture]
[Platform("Linux")]
public sealed class SweepFullDiskTests : CommandTest
{
    private string _disk = "";

    [SetUp]
    public void MountDisk()
    {
        _disk = At("disk");
        Directory.CreateDirectory(_disk);
        Assume.That(Environment.IsPrivilegedProcess && Shell("mount", "-t", "tmpfs", "-o", "size=8k", "tmpfs", _disk) == 0, "no right to mount a disk here");
    }

    [TearDown]
    public void UnmountDisk()
    {
        if (Environment.IsPrivilegedProcess)
        {
            Shell("umount", _disk);
        }
    }

    [Test]
    public void Sweep_FullDisk_KeepsWhatIsThereAndGoesOn()
    {
        Scenario("[ecg_noise]\nmuscle_snr_db = 24\n", 14);
        string study = Write("study.toml", SmallStudyText.Of("s.toml", seeds: 8));
        string folder = Path.Combine(_disk, "out");
        Command.Run("sweep", study, "--out", At("straight"));

        Answer full = Command.Run("sweep", study, "--out", folder);
        Assert.That(full.Code, Is.EqualTo(ExitCodes.EnvironmentFailed), full.Error);
        Assert.That(full.Messages, Has.Length.EqualTo(1));
        Assert.That(full.Error, Does.Contain("runs.journal: the journal cannot be written").And.Contain("make room and give the same command again"));

        Answer still = Command.Run("sweep", study, "--out", folder);
        Assert.That(still.Code, Is.EqualTo(ExitCodes.EnvironmentFailed));
        Assert.That(still.Error, Does.Match("going on: [1-9][0-9]* of 16 runs are there"));

        Assert.That(Shell("mount", "-o", "remount,size=10m", _disk), Is.Zero);
        Answer after = Command.Run("sweep", study, "--out", folder);
        Assert.That(after.Code, Is.EqualTo(ExitCodes.Done), after.Error);
        Assert.That(Contents(folder), Is.EqualTo(Contents(At("straight"))));
    }

    /// <summary>Room for the journal, none for the results: they do not appear, and the rows stay.</summary>
    [Test]
    public void Sweep_DiskFullAtTheEnd_WritesNoHalfResults()
    {
        Scenario("[ecg_noise]\nmuscle_snr_db = 24\n", 14);
        string study = Write("study.toml", SmallStudyText.Of("s.toml", seeds: 8));
        string folder = Path.Combine(_disk, "out");
        Assert.That(Shell("mount", "-o", "remount,size=44k", _disk), Is.Zero);

        Answer full = Command.Run("sweep", study, "--out", folder);
        Assert.That(full.Code, Is.EqualTo(ExitCodes.EnvironmentFailed), full.Error);
        Assert.That(Directory.GetFileSystemEntries(_disk).Select(p => Path.GetFileName(p)), Is.EqualTo(new[] { "out" }));
        Assert.That(Directory.GetFiles(folder).Select(p => Path.GetFileName(p)), Is.EqualTo(new[] { "runs.journal" }));

        Assert.That(Shell("mount", "-o", "remount,size=10m", _disk), Is.Zero);
        Answer after = Command.Run("sweep", study, "--out", folder);
        Assert.That((after.Code, after.Error.Contains("going on: 16 of 16", StringComparison.Ordinal)), Is.EqualTo((ExitCodes.Done, true)), after.Error);
    }

    private static int Shell(string program, params string[] args)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, args) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode;
    }
}
