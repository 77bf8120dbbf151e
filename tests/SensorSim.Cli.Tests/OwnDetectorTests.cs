// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Tests.Shared;

namespace SensorSim.Cli.Tests;

/// <summary>The option <c>--detector</c>: the worked examples end to end, as their pages say.</summary>
[TestFixture]
public sealed class OwnDetectorTests : CommandTest
{
    private static string Folder => Path.Combine(Root, "docs", "examples");

    private string C => CCompiler.Library(CCompiler.Example, At("threshold.so"), "-O2");

    [Test]
    public void Run_CsharpAndCExamples_GiveTheSameFiles()
    {
        string scenario = Scenario("[ecg_noise]\nmuscle_snr_db = 6\n", seconds: 40);
        string csharp = BuildCsharp();
        string c = C;
        Assert.That(Command.Run("run", scenario, "--detector", csharp, "--out", At("csharp")).Code, Is.Zero);
        Assert.That(Command.Run("run", scenario, "--detector", c, "--out", At("c")).Code, Is.Zero);
        Assert.That(Command.Run("run", scenario, "--detector", c, "--in-process", "--out", At("near")).Code, Is.Zero);

        foreach (string name in new[] { "detections.csv", "scores.json", "truth.csv" })
        {
            byte[] expected = File.ReadAllBytes(At("csharp", name));
            Assert.That(File.ReadAllBytes(At("c", name)), Is.EqualTo(expected), name);
            Assert.That(File.ReadAllBytes(At("near", name)), Is.EqualTo(expected), name);
        }

        Assert.That(File.ReadAllLines(At("c", "detections.csv")), Has.Length.GreaterThan(40));
    }

    // What the page of the examples promises.
    [Test]
    public void Run_CExampleAtRest_FindsEveryBeat()
    {
        Answer answer = Command.Run("run", Path.Combine(Root, "waveforms", "scenarios", "rest-finger.toml"), "--detector", C, "--json");

        using JsonDocument json = JsonDocument.Parse(answer.Out);
        JsonElement row = json.RootElement.GetProperty("scores").EnumerateArray().Single(
            s => s.GetProperty("channel").GetString() == "ecg" && s.GetProperty("kind").GetString() == "r_peak");
        Assert.That(json.RootElement.GetProperty("detector").GetString(), Is.EqualTo("threshold 1.0"));
        Assert.That(json.RootElement.GetProperty("verdict").GetString(), Is.EqualTo("answered"));
        Assert.That((row.GetProperty("missed").GetInt64(), row.GetProperty("extra").GetInt64()), Is.EqualTo((0, 0)));
        Assert.That(row.GetProperty("matched").GetInt64(), Is.EqualTo(56));
        Assert.That(row.GetProperty("timing_bias_ms").GetDouble(), Is.EqualTo(14).Within(0.5));
        Assert.That(answer.Code, Is.EqualTo(1), "pulses are asked for too");
    }

    [Test]
    public void Detect_CExample_GivesTheMarksOfTheRun()
    {
        string scenario = Scenario();
        Command.Run("record", scenario, "--out", At("record"));
        Command.Run("run", scenario, "--detector", C, "--out", At("run"));
        Answer detected = Command.Run("detect", At("record"), "--detector", C, "--out", At("detect"));

        Assert.That(detected.Code, Is.Zero, detected.Error);
        Assert.That(detected.Out, Does.Contain("detector threshold 1.0"));
        Assert.That(File.ReadAllBytes(At("detect", "detections.csv")), Is.EqualTo(File.ReadAllBytes(At("run", "detections.csv"))));
    }

    [TestCase("SEGFAULT", "crashed", "SIGSEGV")]
    [TestCase("FUTURE", "lying", "had been handed 750 samples")]
    public void Run_BadLibrary_IsExitCode1(string behaviour, string word, string reason)
    {
        Answer answer = Command.Run("run", Scenario(), "--detector", CCompiler.BadLibrary(At(), behaviour));
        Assert.That(answer.Code, Is.EqualTo(1));
        Assert.That(answer.Out, Does.Contain($"{word}: The detector").And.Contain(reason));
        Assert.That(Command.Run("run", Scenario(), "--detector", CCompiler.BadLibrary(At(), behaviour), "--json").Out, Does.Contain($"\"verdict\": \"{word}\""));
    }

    [Test]
    public void Run_ClosedLoop_NeedsNoControlWithAnOwnDetector()
    {
        Answer answer = Command.Run("run", Scenario(), "--detector", CCompiler.BadLibrary(At(), "ASKS"), "--closed-loop", "--out", At("out"));
        Assert.That(answer.Error, Does.Not.Contain("needs"));
        Assert.That(File.ReadAllText(At("out", "settings.csv")), Does.Contain("red,led_current_ma,10"));
    }

    [TestCase("there is no such file", "--detector", "gone.so")]
    [TestCase("belong to a detector of your own; add --detector FILE", "--in-process")]
    [TestCase("belong to a detector of your own; add --detector FILE", "--detector-class", "X")]
    [TestCase("names a class of a .NET assembly", "--detector", "C", "--detector-class", "X")]
    [TestCase("--in-process is for C libraries", "--detector", "NET", "--in-process")]
    [TestCase("is for the library; it cannot be told to a detector of your own", "--detector", "C", "--calibration", "x.toml")]
    [TestCase("is not a shared library; this computer needs", "--detector", "TEXT")]
    [TestCase("no class in it implements IDetector", "--detector", "NET")]
    public void Run_WrongOptions_AreRefused(string sentence, params string[] options)
    {
        string scenario = Scenario();
        string[] filled = [.. options.Select(o => o switch
        {
            "C" => C,
            "NET" => Path.Combine(AppContext.BaseDirectory, "SensorSim.Files.dll"),
            "TEXT" => scenario,
            _ => o,
        })];
        string[] messages = Command.Refused(2, ["run", scenario, .. filled]);
        Assert.That(messages, Has.Length.EqualTo(1));
        Assert.That(messages[0], Does.Contain(sentence));
    }

    [Test]
    public void Detect_OwnDetectorWithAudit_IsRefused()
    {
        Command.Run("record", Scenario(), "--out", At("record"));
        Assert.That(Command.Refused(2, "detect", At("record"), "--detector", C, "--audit")[0], Does.Contain("look inside the library"));
    }

    // As a user does it: a copy of the folder somewhere else, against the file beside the command.
    private string BuildCsharp()
    {
        Directory.CreateDirectory(At("example"));
        foreach (string file in Directory.EnumerateFiles(Path.Combine(Folder, "csharp-detector")))
        {
            File.Copy(file, At("example", Path.GetFileName(file)));
        }

        CCompiler.Run(
            "dotnet", "build", At("example"), "-c", "Release", "-v", "quiet", "--nologo", "-o", At("built"), "-nodeReuse:false", "-p:UseSharedCompilation=false",
            $"-p:SensorSimFolder={AppContext.BaseDirectory.TrimEnd('/')}");
        return At("built", "SensorSim.Examples.Threshold.dll");
    }
}
