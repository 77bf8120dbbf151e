// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.Tests;

/// <summary>What goes wrong leaves nothing behind and ends with the right code.</summary>
[TestFixture]
public sealed class FailureTests : CommandTest
{
    private const string Impossible = "[requirements]\nr_peak_timing_sd_ms_max = 0\n";

    [TestCase("run")]
    [TestCase("record")]
    public void Verb_MissingScenario_SaysSoAndWritesNothing(string verb)
    {
        string path = At("none.toml");

        Assert.That(
            Command.Refused(ExitCodes.WrongInput, verb, path, "--out", At("out", "deep")),
            Is.EqualTo(new[] { $"{path}: there is no such file; give the path of a scenario (TOML)" }));
        Assert.That(Everything(), Is.Empty);
    }

    [TestCase("run")]
    [TestCase("record")]
    public void Verb_BrokenScenario_TellsThreeMistakesAtMostAndWritesNothing(string verb)
    {
        string path = Write("bad.toml", "[heart]\nrate_bmp = 60\nslow_variability_ms = \"much\"\nrespiratory_variability_ms = -5\n[pulse]\narrival_ms = 9\n");

        string[] messages = Command.Refused(ExitCodes.WrongInput, verb, path, "--out", At("out"));

        Assert.That(messages, Is.EqualTo(new[]
        {
            $"{path}, line 2, column 1: heart.rate_bmp is no key; the nearest is heart.rate_bpm",
            $"{path}, line 3, column 23: heart.slow_variability_ms = \"much\" must be a number, 0 to 150 ms",
            $"{path}, line 4, column 30: heart.respiratory_variability_ms = -5 is outside of 0 to 150 ms",
        }));
        Assert.That(Everything(), Is.EqualTo(new[] { "bad.toml" }));
    }

    [TestCase("file")]
    [TestCase("file/below")]
    [TestCase("file/below/it")]
    public void Verb_FileInTheWayOfOut_IsAFailureOfTheEnvironment(string place)
    {
        Write("file", "mine");
        string scenario = Scenario();
        foreach (string verb in new[] { "run", "record" })
        {
            string message = Command.Refused(ExitCodes.EnvironmentFailed, verb, scenario, "--out", At(place)).Single();

            Assert.That(message, Does.StartWith($"--out {At(place)}: "));
        }

        Assert.That(File.ReadAllText(At("file")), Is.EqualTo("mine"));
        Assert.That(Everything(), Is.EqualTo(new[] { "file", "s.toml" }));
    }

    [Test]
    [Platform("Linux", Reason = "/proc is where not even the administrator may make a folder.")]
    public void Verb_OutWhereNobodyMayWrite_IsAFailureOfTheEnvironment()
    {
        Assert.That(
            Command.Refused(ExitCodes.EnvironmentFailed, "run", Scenario(), "--out", "/proc/sensorsim").Single(),
            Is.EqualTo("--out /proc/sensorsim: no folder can be made here; name a folder on a disk that can be written"));
    }

    [TestCase("run")]
    [TestCase("record")]
    [TestCase("detect")]
    public void Verb_Interrupted_WritesNothing(string verb)
    {
        string input = Scenario();
        if (verb == "detect")
        {
            Assert.That(Command.Run("record", input, "--out", At("rec")).Code, Is.Zero);
            input = At("rec");
        }

        string[] before = Everything();

        Answer answer = Command.Run(new CancellationToken(canceled: true), verb, input, "--out", At("new", "out"));

        Assert.That((answer.Code, answer.Out), Is.EqualTo((ExitCodes.Interrupted, "")));
        Assert.That(answer.Messages, Is.EqualTo(new[] { "sensorsim: interrupted; nothing was written" }));
        Assert.That(Everything(), Is.EqualTo(before));
    }

    [Test]
    public void Run_RequirementNotMet_IsOneAndFilesAreWritten()
    {
        Answer answer = Command.Run("run", Scenario(Impossible, seconds: 20), "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet));
        Assert.That(answer.Out, Does.Contain("r_peak_timing_sd_ms_max").And.Contain("requirements NOT met"));
        Assert.That(File.Exists(At("out", "scores.json")));
    }

    [Test]
    public void Run_IntoAFolderWithOtherFiles_LeavesThese()
    {
        Directory.CreateDirectory(At("out"));
        Write("out/notes.txt", "mine");
        Write("out/truth.csv", "old");

        Command.Run("run", Scenario(), "--out", At("out"));

        Assert.That(File.ReadAllText(At("out", "notes.txt")), Is.EqualTo("mine"));
        Assert.That(File.ReadAllText(At("out", "truth.csv")), Does.StartWith("channel,kind,time_ns"));
        Assert.That(Directory.GetFileSystemEntries(At()), Has.Length.EqualTo(2));
    }

    [TestCase("ecg_mv\n0.1\nten\n", "--rate-hz 360", "line 3, column 1")]
    [TestCase("", "--rate-hz 360", "empty")]
    [TestCase("0.1\n0.2\n", "--rate-hz 360", "header")]
    [TestCase("ecg_mv\n0.1\n", "", "add --rate-hz")]
    [TestCase("ecg_mv\n0.1\n", "--rate-hz 0", "--rate-hz 0 must be a whole number from 1 to 1000000")]
    [TestCase("ecg_mv\n0.1\n", "--rate-hz 360 --unit volt", "'mv' 'uv' 'v' 'na' 'ua' 'g' 'mg' 'm_s2' 'counts'")]
    [TestCase("ecg_mv\n0.1\n", "--rate-hz 360 --channel heart", "'infrared'")]
    [TestCase("ecg_mv\n0.1\n", "--rate-hz 360 --channel red", "--unit mv is for the ecg channel; for red use --unit na or ua or counts")]
    [TestCase("ecg_mv\n0.1\n", "--rate-hz 360 --unit counts", "line 2")]
    [TestCase("ecg_mv\n1\n", "--rate-hz 360 --unit counts --uv-per-code 5", "--uv-per-code is for --unit mv")]
    [TestCase("ecg_mv\n1\n", "--rate-hz 360 --uv-per-code 0", "--uv-per-code 0 must be a number from 0.001 to 10000")]
    public void Detect_WrongColumn_SaysWhatWouldBeRight(string text, string options, string expected)
    {
        string path = Write("ecg.csv", text);

        string[] messages = Command.Refused(
            ExitCodes.WrongInput, ["detect", path, .. options.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--out", At("out")]);

        Assert.That(messages.Single(), Does.Contain(expected));
        Assert.That(Everything(), Is.EqualTo(new[] { "ecg.csv" }));
    }

    [Test]
    public void Detect_FolderThatIsNoRecording_SaysSo() => Assert.That(
        Command.Refused(ExitCodes.WrongInput, "detect", At()).Single(), Does.Contain("there is no channels.csv in this folder"));

    [TestCase("--rate-hz", "250")]
    [TestCase("--unit", "counts")]
    [TestCase("--channel", "ecg")]
    [TestCase("--uv-per-code", "1")]
    public void Detect_RecordingWithOptionsOfAColumn_SaysSo(string option, string value)
    {
        Command.Run("record", Scenario(), "--out", At("rec"));

        Assert.That(Command.Refused(ExitCodes.WrongInput, "detect", At("rec"), option, value).Single(), Does.Contain("belong to a CSV file"));
    }

    [Test]
    public void Detect_RecordingWithDamage_NamesTheLineAndWritesNothing()
    {
        Command.Run("record", Scenario(), "--out", At("rec"));
        string[] lines = File.ReadAllLines(At("rec", "ecg.csv"));
        lines[700] = lines[700].Replace(",", ",x", StringComparison.Ordinal);
        File.WriteAllLines(At("rec", "ecg.csv"), lines);
        string[] before = Everything();

        Assert.That(Command.Refused(ExitCodes.WrongInput, "detect", At("rec"), "--out", At("out")).Single(), Does.Contain("ecg.csv, line 701, column "));
        Assert.That(Everything(), Is.EqualTo(before));
    }

    [TestCase("--exclude")]
    [TestCase("--acquisition")]
    [TestCase("--requirements")]
    public void Score_FileOfAnOptionMissing_IsNamed(string option)
    {
        string truth = Write("beats.csv", "time_s\n10\n");
        string marks = Write("d.csv", "channel,kind,time_ns\necg,r_peak,10000000000\n");

        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "score", truth, marks, option, At("none"), "--out", At("out")).Single(),
            Does.StartWith($"{At("none")}: there is no such file"));
        Assert.That(Everything(), Is.EqualTo(new[] { "beats.csv", "d.csv" }));
    }
}
