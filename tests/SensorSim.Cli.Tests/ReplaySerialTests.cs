// SPDX-License-Identifier: MIT
using SensorSim.Cli.Tests.Boards;
using SensorSim.Links.Lines;
using SensorSim.Links.Tests.Support;
using SensorSim.Scenarios.Reading;
using SensorSim.Tests.Boards;

namespace SensorSim.Cli.Tests;

/// <summary><c>replay</c> and <c>record --link</c> over serial ports: pairs of pseudo terminals, a board in C# at the other end.</summary>
[TestFixture]
[Platform("Linux", Reason = "Pseudo terminals are made by socat.")]
public sealed class ReplaySerialTests : CommandTest
{
    private static readonly LinkOptions s_options = new() { BaudRate = 921_600 };

    [Test]
    public void Replay_OverASerialPort_IsBitExactAndWithoutDamage()
    {
        using var pair = new PtyPair();
        using var board = new LibraryBoard(SerialLink.Open(pair.Board, s_options));

        Answer answer = Command.Run("replay", Scenario(seconds: 20), "--link", pair.Host, "--baud", "921600", "--speed", "4", "--deadline-ms", "60000", "--expect", "bit-exact", "--json");

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        Assert.That(answer.Out, Does.Contain("\"marks_different\": 0").And.Not.Contain("\"frames_damaged\": 1"));
        Assert.That(board.Counts.Damaged + board.Counts.Missing, Is.Zero);
    }

    [Test]
    public void Replay_CablePulled_IsAVerdictAndKeepsTheAnswers()
    {
        using var pair = new PtyPair();
        using var board = new LibraryBoard(SerialLink.Open(pair.Board, s_options));
        using var pull = new Timer(_ => pair.Unplug(), null, 4000, Timeout.Infinite);

        Answer answer = Command.Run("replay", Scenario(seconds: 600), "--link", pair.Host, "--baud", "921600", "--speed", "8", "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet), answer.Error);
        Assert.That(answer.Out, Does.Contain("\ncrashed: The board is gone: "));
        Assert.That(File.ReadLines(At("out", "detections.csv")).Count(), Is.GreaterThan(20));
    }

    [Test]
    public void Record_OverASerialPort_HoldsTheSamplesThatTheBoardSent()
    {
        string scenario = Scenario(seconds: 12);
        Command.Run("record", scenario, "--out", At("made"));
        using var pair = new PtyPair();
        using var board = new SamplingBoard(SerialLink.Open(pair.Board, s_options), ScenarioReader.ReadFile(scenario));

        Answer answer = Command.Run("record", "--link", pair.Host, "--baud", "921600", "--duration-s", "10", "--out", At("board"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error);
        string[] came = File.ReadAllLines(At("board", "ecg.csv"));
        Assert.That(came, Is.EqualTo(File.ReadAllLines(At("made", "ecg.csv")).Take(came.Length)));
        Assert.That(came, Has.Length.GreaterThan(1000));
    }
}
