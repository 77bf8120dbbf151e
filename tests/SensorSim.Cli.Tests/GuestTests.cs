// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Text.Json;
using SensorSim.Tests.Shared;

namespace SensorSim.Cli.Tests;

/// <summary>Detectors inside the process of the command cannot end it as a success, keep it from ending or spoil its results.</summary>
[TestFixture]
public sealed class GuestTests : CommandTest
{
    private static readonly string s_program = Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? "sensorsim.exe" : "sensorsim");
    private static readonly string s_guests = typeof(GuestDetector).Assembly.Location;

    [Test]
    [CancelAfter(60000)]
    public void Run_CLibraryCallsExitZero_IsExitCode1WithASentence()
    {
        string library = CCompiler.BadLibrary(At(), "EXITS_ZERO");
        Answer answer = Start("run", Scenario(), "--detector", library, "--in-process", "--json");

        Assert.That((answer.Code, answer.Out), Is.EqualTo((1, "")));
        Assert.That(answer.Error, Is.EqualTo($"sensorsim: {library}: the detector ended the whole command (by exit or the like); its answers count for nothing\n"));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_ClassCallsExitZero_IsExitCode1WithASentence()
    {
        Answer answer = Guest("LeavingDetector");

        Assert.That((answer.Code, answer.Out), Is.EqualTo((1, "")));
        Assert.That(answer.Error, Is.EqualTo($"sensorsim: {s_guests}: the detector ended the whole command (by exit or the like); its answers count for nothing\n"));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_ClassThrowsInDispose_GivesResultsAndASentence()
    {
        Answer answer = Guest("GrippingDetector");

        Assert.That(answer.Code, Is.EqualTo(1));
        Assert.That(VerdictOf(answer), Is.EqualTo("answered"));
        Assert.That(answer.Error, Is.EqualTo($"sensorsim: {s_guests}: the detector threw InvalidOperationException when it was disposed of: not now\n"));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_ClassThrowsOnItsOwnThread_IsOneSentence()
    {
        Answer answer = Guest("StrayDetector");

        Assert.That((answer.Code, answer.Out), Is.EqualTo((1, "")));
        Assert.That(answer.Error, Is.EqualTo($"sensorsim: {s_guests}: the detector threw InvalidOperationException on a thread of its own: lost alone\n"));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_ClassLeavesAThreadRunning_EndsAllTheSame()
    {
        Answer answer = Guest("StayingDetector");

        Assert.That(VerdictOf(answer), Is.EqualTo("answered"));
        Assert.That((answer.Code, answer.Error), Is.EqualTo((0, "")));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_ClassPrints_ResultsStayWhole()
    {
        Answer answer = Guest("TalkingDetector");

        Assert.That(VerdictOf(answer), Is.EqualTo("answered"));
        Assert.That(answer.Error, Is.EqualTo("a word of the detector\nanother word\n"));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_CLibraryPrints_ResultsStayWhole()
    {
        Answer answer = Start("run", Scenario(), "--detector", CCompiler.BadLibrary(At(), "PRINTS"), "--in-process", "--json");

        Assert.That(VerdictOf(answer), Is.EqualTo("answered"));
        Assert.That(answer.Messages, Is.Not.Empty.And.All.EqualTo("a line that disturbs nobody"));
    }

    [Test]
    [CancelAfter(60000)]
    public void Run_GuestAndReaderGone_EndsQuietly()
    {
        using Process process = Begin("run", Scenario(), "--detector", s_guests, "--detector-class", "SensorSim.Cli.Tests.StayingDetector", "--json");
        process.StandardOutput.Close();
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();

        Assert.That((process.ExitCode, error), Is.EqualTo((0, "")));
    }

    private static string? VerdictOf(Answer answer)
    {
        using JsonDocument json = JsonDocument.Parse(answer.Out);
        return json.RootElement.GetProperty("verdict").GetString();
    }

    private static Process Begin(params string[] args) =>
        Process.Start(new ProcessStartInfo(s_program, args) { RedirectStandardOutput = true, RedirectStandardError = true })!;

    // Ended by force after half a minute: the vice of one is to keep its process alive.
    private static Answer Start(params string[] args)
    {
        using Process process = Begin(args);
        Task<string> error = process.StandardError.ReadToEndAsync();
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        if (!process.WaitForExit(30_000))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail("the command does not end");
        }

        return new Answer(process.ExitCode, output.Result, error.Result);
    }

    private Answer Guest(string name) =>
        Start("run", Scenario(), "--detector", s_guests, "--detector-class", $"SensorSim.Cli.Tests.{name}", "--json");
}
