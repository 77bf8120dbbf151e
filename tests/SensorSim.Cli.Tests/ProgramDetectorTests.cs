// SPDX-License-Identifier: MIT
using SensorSim.Tests.Shared;

namespace SensorSim.Cli.Tests;

/// <summary>The option <c>--detector-command</c> and the adapter <c>process</c> of studies, with the worked example in Python.</summary>
[TestFixture]
public sealed class ProgramDetectorTests : CommandTest
{
    private static string Python => Path.Combine(Root, "docs", "examples", "process", "python", "threshold_detector.py");

    private string C => CCompiler.Library(CCompiler.Example, At("threshold.so"), "-O2");

    // The same algorithm over pipes in Python and in a C library: the same files, byte for byte.
    [Test]
    public void Run_PythonExample_GivesTheFilesOfTheCExample()
    {
        string scenario = Scenario("[ecg_noise]\nmuscle_snr_db = 6\n", seconds: 30);
        Answer program = Command.Run("run", scenario, "--detector-command", $"python3 \"{Python}\"", "--out", At("python"));
        Assert.That(program.Code, Is.Zero, program.Error);
        Assert.That(Command.Run("run", scenario, "--detector", C, "--out", At("c")).Code, Is.Zero);
        foreach (string name in new[] { "detections.csv", "scores.json", "truth.csv" })
        {
            Assert.That(File.ReadAllBytes(At("python", name)), Is.EqualTo(File.ReadAllBytes(At("c", name))), name);
        }

        Assert.That(File.ReadAllLines(At("python", "detections.csv")), Has.Length.GreaterThan(30));
    }

    [Test]
    public void Detect_PythonExample_GivesTheMarksOfTheCExample()
    {
        Command.Run("record", Scenario(), "--out", At("record"));
        Assert.That(Command.Run("detect", At("record"), "--detector-command", $"python3 {Python}", "--out", At("python")).Code, Is.Zero);
        Assert.That(Command.Run("detect", At("record"), "--detector", C, "--out", At("c")).Code, Is.Zero);
        Assert.That(File.ReadAllBytes(At("python", "detections.csv")), Is.EqualTo(File.ReadAllBytes(At("c", "detections.csv"))));
    }

    // A study of the program and of its twin in C: all rows the same but for their labels, and compare finds no difference.
    [Test]
    public void Sweep_ProgramAndItsTwin_AreTheSameToCompare()
    {
        Scenario("[ecg_noise]\nmuscle_snr_db = 24\n", 12);
        File.Copy(Python, At("threshold_detector.py"));
        foreach (string part in new[] { "sensorsim_board.py", "sensorsim_link.py" })
        {
            File.Copy(Path.Combine(Path.GetDirectoryName(Python)!, part), At(part));
        }

        Sweep("python", "adapter = \"process\"\ncommand = [\"python3\", \"threshold_detector.py\"]");
        Sweep("c", $"adapter = \"c_library\"\nfile = \"{C}\"");
        string[] python = File.ReadAllLines(At("python", "runs.csv"));
        Assert.That(python, Has.Length.EqualTo(1 + 4));
        Assert.That(python, Is.EqualTo(File.ReadAllLines(At("c", "runs.csv"))));
        Answer compared = Command.Run("compare", "--baseline", At("python"), At("c"));
        Assert.That(compared.Code, Is.EqualTo(ExitCodes.Done), compared.Error + compared.Out);
        Assert.That(File.ReadAllText(At("python", "summary.json")), Does.Match("\"identity\": \"threshold 1.0 sha256:[0-9a-f]{64}\""));
    }

    [TestCase("there is no such program", "--detector-command", "no-such-program-here")]
    [TestCase("--detector-command: the command has no word", "--detector-command", " ")]
    [TestCase("open quotation mark", "--detector-command", "python3 \"x")]
    [TestCase("--detector-command stands alone", "--detector-command", "python3 x.py", "--detector", "x.so")]
    [TestCase("--detector-command stands alone", "--detector-command", "python3 x.py", "--in-process")]
    [TestCase("cannot be used: The detector ended before the stream did", "--detector-command", "true")]
    [TestCase("cannot be used: No valid frame in", "--detector-command", "yes")]
    public void Run_WrongCommand_IsRefused(string sentence, params string[] options)
    {
        string[] messages = Command.Refused(ExitCodes.WrongInput, ["run", Scenario(), .. options]);
        Assert.That(messages, Has.Length.EqualTo(1));
        Assert.That(messages[0], Does.Contain(sentence));
    }

    private void Sweep(string name, string detector)
    {
        string study = Write($"{name}.toml", SmallStudyText.Of("s.toml", 2)
            .Replace("adapter = \"library\"", detector, StringComparison.Ordinal));
        Answer answer = Command.Run("sweep", study, "--out", At(name));
        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done).Or.EqualTo(ExitCodes.NotMet), answer.Error + answer.Out);
    }
}
