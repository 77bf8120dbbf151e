// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Cli.Tests.Boards;
using SensorSim.Scenarios.Reading;
using SensorSim.Tests.Boards;

namespace SensorSim.Cli.Tests;

/// <summary><c>record --link</c> from a board in C# that sends the samples of a scenario.</summary>
[TestFixture]
public sealed class RecordBoardTests : CommandTest
{
    private const string Lossy = "[device]\npacket_loss_percent = 5\n";

    [Test]
    public void Record_Board_HoldsTheSamplesThatItSent()
    {
        string scenario = Scenario(Lossy, seconds: 20);
        Command.Run("record", scenario, "--out", At("made"));
        using var port = new BoardPort(link => new SamplingBoard(link, ScenarioReader.ReadFile(scenario)));

        Answer answer = Command.Run("record", "--link", port.Address, "--duration-s", "15", "--out", At("board"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error);
        Assert.That(answer.Out, Does.StartWith("bench board 1: 15 s, "));
        Assert.That(answer.Messages, Does.Contain("sensorsim: board: information: sampling begins"));
        foreach (string name in new[] { "ecg.csv", "infrared.csv", "accel_z.csv" })
        {
            string[] sent = File.ReadAllLines(At("made", name));
            string[] came = File.ReadAllLines(At("board", name));
            Assert.That(came, Has.Length.GreaterThan(sent.Length / 2));
            Assert.That(came, Is.EqualTo(sent.Take(came.Length)), name);
        }

        string[] channel = File.ReadAllLines(At("board", "channels.csv"))[1].Split(',');
        string[] expected = File.ReadAllLines(At("made", "channels.csv"))[1].Split(',');
        expected[1] = "device_0";
        Assert.That(channel[..10], Is.EqualTo(expected[..10]));
        Answer detected = Command.Run("detect", At("board"), "--json");
        Assert.That(detected.Code, Is.EqualTo(ExitCodes.Done), detected.Error);
        Assert.That(detected.Out, Does.Contain("\"r_peak\""));
    }

    [Test]
    public void Record_LostFrames_AreGapsAndAreCounted()
    {
        string scenario = Scenario(seconds: 20);
        Command.Run("record", scenario, "--out", At("made"));
        using var port = new BoardPort(link => new SamplingBoard(link, ScenarioReader.ReadFile(scenario), isLost: number => number % 50 == 20));

        Answer answer = Command.Run("record", "--link", port.Address, "--duration-s", "18", "--out", At("board"), "--json");

        using JsonDocument document = JsonDocument.Parse(answer.Out);
        Assert.That(document.RootElement.GetProperty("frames_missing").GetInt64(), Is.GreaterThan(2));
        JsonElement ecg = document.RootElement.GetProperty("channels")[0];
        string[] came = File.ReadAllLines(At("board", "ecg.csv"));
        Assert.That(ecg.GetProperty("samples").GetInt64(), Is.EqualTo(came.Length - 1));
        Assert.That(ecg.GetProperty("samples_missing").GetInt64(), Is.GreaterThan(10));
        Assert.That(came, Is.SubsetOf(File.ReadAllLines(At("made", "ecg.csv"))));
    }

    [Test]
    public void Record_BoardThatDies_KeepsWhatCame()
    {
        string scenario = Scenario(seconds: 20);
        using var port = new BoardPort(link => new SamplingBoard(link, ScenarioReader.ReadFile(scenario), diesAfter: 60));

        Answer answer = Command.Run("record", "--link", port.Address, "--duration-s", "18", "--out", At("board"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.EnvironmentFailed));
        Assert.That(answer.Messages, Has.Some.StartsWith("sensorsim: ended early: "));
        Assert.That(Command.Run("detect", At("board")).Code, Is.AnyOf(ExitCodes.Done, ExitCodes.NotMet));
        Assert.That(File.ReadLines(At("board", "ecg.csv")).Count(), Is.GreaterThan(100));
    }

    // What a board calls itself must not drive the user's terminal.
    [TestCase("")]
    [TestCase("--json")]
    public void Record_NameThatDrivesATerminal_IsHarmless(string form)
    {
        string scenario = Scenario(seconds: 5);
        using var port = new BoardPort(link => new SamplingBoard(link, ScenarioReader.ReadFile(scenario), name: "bench\u001b]0;x\u0007\u202e 1"));

        Answer answer = Command.Run(["record", "--link", port.Address, "--duration-s", "3", .. form.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--out", At("board")]);

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error);
        Assert.That(answer.Out, Does.Contain("bench ]0;x  1"));
        Assert.That((answer.Out + answer.Error).Where(c => c is not '\n' && (char.IsControl(c) || c == '\u202e')), Is.Empty);
    }

    [Test]
    public void Record_UntilInterrupted_IsDone()
    {
        string scenario = Scenario(seconds: 1000);
        using var port = new BoardPort(link => new SamplingBoard(link, ScenarioReader.ReadFile(scenario)));
        using var interrupt = new CancellationTokenSource(TimeSpan.FromSeconds(2));

        Answer answer = Command.Run(interrupt.Token, "record", "--link", port.Address, "--out", At("board"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error);
        Assert.That(File.ReadLines(At("board", "ecg.csv")).Count(), Is.GreaterThan(500));
    }

    [Test]
    public void Record_BoardWithoutSamples_IsAFailureOfTheEnvironment()
    {
        using var port = new BoardPort(new BoardHabits());

        string message = Command.Refused(ExitCodes.EnvironmentFailed, "record", "--link", port.Address, "--out", At("out")).Single();

        Assert.That(message, Does.Contain("the board cannot send samples of its own").And.EndWith("use a firmware that samples"));
        Assert.That(Everything(), Is.Empty);
    }

    [TestCase("--link COM3 --seed 3", "--link records what a board samples")]
    [TestCase("", "record needs SOURCE: Scenario file (TOML), or a recording to convert; or --link ADDRESS")]
    public void Record_WrongOptions_SaysWhatWouldBeRight(string options, string expected) => Assert.That(
        Command.Refused(ExitCodes.WrongInput, ["record", .. options.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--out", At("out")])[0], Does.StartWith(expected));

    [Test]
    public void Record_DurationOfARecording_IsRefused()
    {
        Assert.That(Command.Run("record", Scenario(), "--duration-s", "2.5", "--out", At("rec")).Code, Is.Zero);
        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "record", At("rec"), "--duration-s", "2", "--out", At("out"))[0], Does.StartWith("--duration-s is for a scenario or a board"));

        // 250 samples a second; the shorter stream is the beginning of the longer one.
        string[] shorter = File.ReadAllLines(At("rec", "ecg.csv"));
        Command.Run("record", Scenario(), "--out", At("long"));
        Assert.That(shorter, Has.Length.EqualTo(626).And.EqualTo(File.ReadLines(At("long", "ecg.csv")).Take(626)));
    }
}
