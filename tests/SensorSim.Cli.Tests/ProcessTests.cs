// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Cli.Tests;

/// <summary>The few things that only a process of its own shows.</summary>
[TestFixture]
public sealed class ProcessTests : CommandTest
{
    private static readonly string s_program = Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? "sensorsim.exe" : "sensorsim");

    [Test]
    [CancelAfter(60000)]
    public void Explain_OutputClosedEarly_EndsQuietly()
    {
        using Process process = Start("explain", "--json");
        process.StandardOutput.Close();
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();

        Assert.That((process.ExitCode, error), Is.EqualTo((0, "")));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_Process_SeparatesResultsFromMessages()
    {
        using Process process = Start("run", Scenario(), "--json", "--out", At("out"));
        string output = process.StandardOutput.ReadToEnd();
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();

        Assert.That(process.ExitCode, Is.AnyOf(ExitCodes.Done, ExitCodes.NotMet));
        Assert.That(output, Is.EqualTo(File.ReadAllText(At("out", "scores.json"))));
        Assert.That(error, Is.EqualTo($"sensorsim: files written to {At("out")}\n"));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_ProcessWithWrongInput_EndsWithTwo()
    {
        using Process process = Start("run", At("none.toml"));
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();

        Assert.That((process.ExitCode, output), Is.EqualTo((ExitCodes.WrongInput, "")));
    }

    private static Process Start(params string[] args)
    {
        var start = new ProcessStartInfo(s_program, args) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["LC_ALL"] = "de_DE.UTF-8";
        return Process.Start(start)!;
    }
}
