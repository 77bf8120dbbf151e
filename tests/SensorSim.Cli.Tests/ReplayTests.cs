// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Cli.Tests.Boards;
using SensorSim.Signals.Marks;
using SensorSim.Tests.Boards;

namespace SensorSim.Cli.Tests;

/// <summary><c>replay</c> into a board in C# behind a TCP port: what is sent, and what is told of the answers.</summary>
[TestFixture]
public sealed class ReplayTests : CommandTest
{
    private const string Fast = "--as-fast-as-possible";

    [Test]
    public void Replay_Scenario_GivesTheMarksAndScoresOfRun()
    {
        string scenario = Scenario(seconds: 30);
        Command.Run("run", scenario, "--out", At("run"));
        using var port = new BoardPort();

        Answer answer = Command.Run("replay", scenario, "--link", port.Address, Fast, "--expect", "bit-exact", "--out", At("board"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        Assert.That(answer.Out, Does.Contain("bit-exact: ").And.Contain("in every field those of sensorsim").And.Contain("link: "));
        foreach (string name in new[] { "detections.csv", "truth.csv", "acquisition.csv" })
        {
            Assert.That(File.ReadAllBytes(At("board", name)), Is.EqualTo(File.ReadAllBytes(At("run", name))), name);
        }

        using JsonDocument run = Json(At("run", "scores.json"));
        using JsonDocument board = Json(At("board", "scores.json"));
        foreach (string part in new[] { "scores", "readings", "requirements", "duration_s", "scored_begin_s", "scored_end_s" })
        {
            Assert.That(board.RootElement.GetProperty(part).GetRawText(), Is.EqualTo(run.RootElement.GetProperty(part).GetRawText()), part);
        }

        Assert.That(Contents(At("board")).Keys, Is.SupersetOf(Contents(At("run")).Keys));
        Assert.That(board.RootElement.GetProperty("bit_exact").GetProperty("marks_equal").GetInt64(), Is.EqualTo(Lines(At("run", "detections.csv")) - 1));
    }

    [Test]
    public void Replay_InRealTime_IsPacedAndSaysHowWell()
    {
        using var port = new BoardPort();
        long begin = System.Diagnostics.Stopwatch.GetTimestamp();

        Answer answer = Command.Run("replay", Scenario(seconds: 12), "--link", port.Address, "--speed", "4", "--json");

        // A lower limit only: how fast a machine is is no test, that it waits is.
        Assert.That(System.Diagnostics.Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.GreaterThan(2.9));
        using JsonDocument document = JsonDocument.Parse(answer.Out);
        JsonElement link = document.RootElement.GetProperty("link");
        Assert.That(link.GetProperty("speed").GetDouble(), Is.EqualTo(4));
        Assert.That(link.GetProperty("pacing_error_ms").GetProperty("count").GetInt64(), Is.EqualTo(link.GetProperty("host").GetProperty("frames_sent").GetInt64()).Within(10));
        Assert.That(link.GetProperty("answers_judged").GetInt64(), Is.GreaterThan(20));
    }

    [Test]
    public void Replay_OnATerminal_ShowsLiveCountersAndTakesThemAway()
    {
        using var port = new BoardPort();
        using var output = new MemoryStream();
        using var error = new StringWriter { NewLine = "\n" };

        App.Run(["replay", Scenario(seconds: 12), "--link", port.Address, "--speed", "4"], new Output.Terminal(output, error, isErrorTerminal: true));

        Assert.That(error.ToString(), Does.Match(@"\r\d+ of 12 s sent, \d\.\d\d x real time, \d+ answers, \d+ late, 0 frames damaged, 0 missing *"));
        Assert.That(error.ToString(), Does.Match(@"\r +\r$"));
    }

    [Test]
    public void Replay_Recording_IsScoredWithItsTruthAndCountedWithout()
    {
        string scenario = Scenario(seconds: 30);
        Command.Run("record", scenario, "--out", At("recording"));
        Command.Run("detect", At("recording"), "--out", At("detect"));
        Command.Run("run", scenario, "--out", At("run"));
        using (var port = new BoardPort())
        {
            Answer scored = Command.Run("replay", At("recording"), "--link", port.Address, Fast, "--out", At("scored"), "--json");

            Assert.That(scored.Code, Is.EqualTo(ExitCodes.Done), scored.Error);
            using JsonDocument run = Json(At("run", "scores.json"));
            using JsonDocument board = JsonDocument.Parse(scored.Out);
            Assert.That(board.RootElement.GetProperty("recording").GetString(), Is.EqualTo(At("recording")));
            Assert.That(board.RootElement.GetProperty("scores").GetRawText(), Is.EqualTo(run.RootElement.GetProperty("scores").GetRawText()));
        }

        File.Delete(At("recording", "truth.csv"));
        using var second = new BoardPort();
        Answer counted = Command.Run("replay", At("recording"), "--link", second.Address, Fast, "--out", At("counted"), "--expect", "bit-exact");

        Assert.That(counted.Code, Is.EqualTo(ExitCodes.Done), counted.Error);
        Assert.That(counted.Out, Does.Contain("without truth nothing is scored").And.Contain("r_peak").And.Contain("bit-exact: "));
        Assert.That(Contents(At("counted")).Keys, Is.EquivalentTo(new[] { "board.log", "counts.json", "detections.csv" }));
        Assert.That(File.ReadAllBytes(At("counted", "detections.csv")), Is.EqualTo(File.ReadAllBytes(At("detect", "detections.csv"))));
    }

    [Test]
    public void Replay_FromTheMiddle_SendsTheRestOnly()
    {
        using var port = new BoardPort();

        Answer answer = Command.Run("replay", Scenario(seconds: 60), "--link", port.Address, Fast, "--start-s", "20.5", "--duration-s", "30", "--expect", "bit-exact", "--json", "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        using JsonDocument document = JsonDocument.Parse(answer.Out);
        Assert.That(document.RootElement.GetProperty("duration_s").GetDouble(), Is.EqualTo(30));
        Assert.That(document.RootElement.GetProperty("link").GetProperty("begin_s").GetDouble(), Is.EqualTo(20.5));
        Assert.That(document.RootElement.GetProperty("scored_begin_s").GetDouble(), Is.EqualTo(8));
        Assert.That(document.RootElement.GetProperty("scored_end_s").GetDouble(), Is.EqualTo(29));
        Assert.That(document.RootElement.GetProperty("scores")[0].GetProperty("reference_count").GetInt64(), Is.GreaterThan(15));
        Assert.That(
            File.ReadLines(At("out", "detections.csv")).Skip(1).Select(l => long.Parse(l.Split(',')[3], System.Globalization.CultureInfo.InvariantCulture)),
            Is.All.InRange(0, 30_000_000_000));
    }

    [TestCase("--loop")]
    [TestCase("--endless")]
    public void Replay_BeyondTheLength_GoesOn(string how)
    {
        using var port = new BoardPort();

        Answer answer = Command.Run("replay", Scenario(seconds: 12), "--link", port.Address, Fast, how, "--duration-s", "40", "--expect", "bit-exact", "--json");

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        using JsonDocument document = JsonDocument.Parse(answer.Out);
        JsonElement beats = document.RootElement.GetProperty("scores")[0];
        Assert.That(document.RootElement.GetProperty("duration_s").GetDouble(), Is.EqualTo(40));
        Assert.That(beats.GetProperty("reference_count").GetInt64(), Is.GreaterThan(25));
        Assert.That(beats.GetProperty("missed").GetInt64(), Is.LessThan(6));
    }

    [Test]
    public void Replay_ChangedMark_IsNotExactAndIsShown()
    {
        int beats = 0;
        using var port = new BoardPort(new BoardHabits
        {
            Around = library => new ChangingDetector(library, mark => mark.Kind == MarkKind.RPeak && beats++ == 12 ? mark with { Fraction256 = (byte)(mark.Fraction256 ^ 1) } : mark),
        });

        Answer answer = Command.Run("replay", Scenario(seconds: 30), "--link", port.Address, Fast, "--expect", "bit-exact", "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet));
        Assert.That(answer.Out, Does.Contain("NOT bit-exact: ").And.Contain(", 1 different, 0 only the library's").And.Contain("first difference: r_peak in ecg at ").And.Contain("fraction_256 is"));
        Assert.That(Contents(At("out")).Keys, Is.SupersetOf(new[] { "difference.png", "difference.svg" }));
        Assert.That(File.ReadAllText(At("out", "difference.svg")), Does.Contain("library: r peak"));
    }

    [Test]
    public void Replay_ClosedLoop_TellsTheBoardWhatChanges()
    {
        string scenario = Scenario(seconds: 20);
        Command.Run("run", scenario, "--closed-loop", "--control", "light_level", "--out", At("run"));
        using var port = new BoardPort();

        Answer answer = Command.Run("replay", scenario, "--link", port.Address, Fast, "--closed-loop", "--control", "light_level", "--out", At("board"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        Assert.That(File.ReadAllBytes(At("board", "settings.csv")), Is.EqualTo(File.ReadAllBytes(At("run", "settings.csv"))));
        Assert.That(File.ReadAllBytes(At("board", "detections.csv")), Is.EqualTo(File.ReadAllBytes(At("run", "detections.csv"))));
        Assert.That(port.Board!.Settings, Has.Count.EqualTo(Lines(At("run", "settings.csv")) - 1).And.Not.Empty);
    }

    [Test]
    public void Replay_Calibration_ReachesTheBoard()
    {
        string scenario = Path.Combine(Root, "waveforms", "scenarios", "pressure-rise.toml");
        string calibration = Path.Combine(Root, "waveforms", "calibrations", "finger-two-cuffs.toml");
        using var port = new BoardPort();

        Answer answer = Command.Run("replay", scenario, "--link", port.Address, Fast, "--duration-s", "120", "--calibration", calibration, "--expect", "bit-exact");

        Assert.That(answer.Out, Does.Contain("systolic_mmhg").And.Contain("bit-exact: "), answer.Error);
    }

    [Test]
    public void Replay_DamagedOnPurpose_BothEndsCountIt()
    {
        using var port = new BoardPort();

        Answer answer = Command.Run("replay", Scenario(seconds: 30), "--link", port.Address, Fast, "--damage", "drop=3,corrupt=5,duplicate=4", "--damage-seed", "3", "--json");

        using JsonDocument document = JsonDocument.Parse(answer.Out);
        JsonElement link = document.RootElement.GetProperty("link");
        JsonElement done = link.GetProperty("damage").GetProperty("to_board");
        Assert.That(done.GetProperty("corrupted").GetInt64(), Is.GreaterThan(3));
        Assert.That(done.GetProperty("dropped").GetInt64(), Is.GreaterThan(1));

        // The board counts from its hello on and tells with its last frame: what hits those two may be missing.
        Assert.That(link.GetProperty("board_counts").GetProperty("frames_damaged").GetInt64(), Is.EqualTo(done.GetProperty("broken_pieces").GetInt64()).Within(2));
        Assert.That(link.GetProperty("board_counts").GetProperty("frames_repeated").GetInt64(), Is.EqualTo(done.GetProperty("duplicated").GetInt64()).Within(2));
        Assert.That(document.RootElement.GetProperty("verdict").GetString(), Is.EqualTo("answered"));
    }

    [Test]
    public void Replay_FiguresOfTheBoard_HaveNames()
    {
        using var port = new BoardPort();

        string table = Command.Run("replay", Scenario(), "--link", port.Address, Fast).Out;
        Assert.That(table, Does.Match(@"\n +detector_timer_ticks +70001\n").And.Match(@"\n +link_timer_ticks +9001\n").And.Match(@"\n +bytes_lost +5\n"));
        Assert.That(table, Does.Contain("timer_ticks: sum over the session, in ticks of the finest counter"));

        using JsonDocument document = JsonDocument.Parse(Command.Run("replay", Scenario(), "--link", port.Address, Fast, "--json").Out);
        var figures = document.RootElement.GetProperty("link").GetProperty("figures").EnumerateArray()
            .ToDictionary(f => f.GetProperty("name").GetString()!, f => f.GetProperty("value").GetInt64());
        Assert.That(figures, Is.SupersetOf(new Dictionary<string, long> { ["detector_timer_ticks"] = 70_001, ["link_timer_ticks"] = 9_001, ["bytes_lost"] = 5 }));
    }

    [Test]
    public void Replay_SameDamageSeed_DoesTheSame()
    {
        string scenario = Scenario(seconds: 20);
        string[] damage = [.. new[] { "2", "2", "3" }.Select(seed =>
        {
            using var port = new BoardPort();
            Answer answer = Command.Run("replay", scenario, "--link", port.Address, Fast, "--damage", "drop=3,direction=to-board", "--damage-seed", seed, "--out", At(seed));
            return Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(At(seed, "detections.csv"))));
        })];

        Assert.That(damage[1], Is.EqualTo(damage[0]));
        Assert.That(damage[2], Is.Not.EqualTo(damage[0]));
    }

    private static JsonDocument Json(string path) => JsonDocument.Parse(File.ReadAllBytes(path));

    private static int Lines(string path) => File.ReadLines(path).Count();
}
