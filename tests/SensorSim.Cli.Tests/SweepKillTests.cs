// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Cli.Tests;

/// <summary>The real command, killed without warning at many moments.</summary>
[TestFixture]
public sealed class SweepKillTests : CommandTest
{
    private static readonly string s_program = Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? "sensorsim.exe" : "sensorsim");

    /// <summary>
    /// Twenty times the process is killed at a drawn moment (SIGKILL) and the command given again, until it ends by itself; the files are those
    /// of a sweep that nothing disturbed, and nothing else is left.
    /// </summary>
    [Test]
    [CancelAfter(300000)]
    public void Sweep_KilledAtDrawnMoments_EndsWithTheSameFiles()
    {
        Scenario("[ecg_noise]\nmuscle_snr_db = 24\n", 40);
        string study = Write("study.toml", SmallStudyText.Of("s.toml", seeds: 60));
        var watch = Stopwatch.StartNew();
        Assert.That(Finish(study, At("straight")), Is.EqualTo(ExitCodes.Done));
        double straightS = watch.Elapsed.TotalSeconds;

        // Drawn with a fixed seed over the time of a whole sweep; a process that is done before its moment ends the round.
        var draws = new KeyedRandom(1, "kill");
        int kills = 0;
        int rounds = 0;
        for (long draw = 0; kills < 20 && rounds < 100; draw++)
        {
            string folder = At($"out{rounds}");
            using Process process = Start(study, folder);
            if (process.WaitForExit((int)(1000 * straightS * draws.Uniform(draw))))
            {
                Assert.That(process.ExitCode, Is.EqualTo(ExitCodes.Done));
                Check(folder);
                rounds++;
                continue;
            }

            process.Kill();
            process.WaitForExit();
            kills++;
            if (kills == 20)
            {
                Assert.That(Finish(study, folder), Is.EqualTo(ExitCodes.Done));
                Check(folder);
            }
        }

        Assert.That(kills, Is.EqualTo(20));
        Assert.That(Everything().Where(p => p.Contains("partial", StringComparison.Ordinal)), Is.Empty);
        TestContext.Out.WriteLine(FormattableString.Invariant($"{kills} kills in {rounds + 1} sweeps of {straightS:0.00} s"));
    }

    private void Check(string folder) => Assert.That(Contents(folder), Is.EqualTo(Contents(At("straight"))));

    private static int Finish(string study, string folder)
    {
        using Process process = Start(study, folder);
        process.WaitForExit();
        return process.ExitCode;
    }

    private static Process Start(string study, string folder)
    {
        var start = new ProcessStartInfo(s_program, ["sweep", study, "--out", folder]) { RedirectStandardOutput = true, RedirectStandardError = true };
        Process process = Process.Start(start)!;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return process;
    }
}
