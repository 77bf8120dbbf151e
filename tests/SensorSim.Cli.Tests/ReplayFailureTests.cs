// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using SensorSim.Cli.Tests.Boards;
using SensorSim.Tests.Boards;

namespace SensorSim.Cli.Tests;

/// <summary>What <c>replay</c> says and leaves behind when board, line, user or process fail.</summary>
[TestFixture]
public sealed class ReplayFailureTests : CommandTest
{
    private const string Fast = "--as-fast-as-possible";

    [TestCase("", "replay needs --link ADDRESS")]
    [TestCase("--link tcp:127.0.0.1", "--link \"tcp:127.0.0.1\" lacks host or port")]
    [TestCase("--link ttyACM0", "--link \"ttyACM0\" is no address of a link; a path begins with /: /dev/ttyACM0")]
    [TestCase("--baud 9600", "--baud and --rts-cts say how a serial port is used; add --link")]
    [TestCase("--link tcp:127.0.0.1:1 --baud 9600", "--baud and --rts-cts belong to a serial port")]
    [TestCase("--link COM3 --baud 299", "--baud 299 must be a whole number from 300 to 3000000")]
    [TestCase("--link COM3 --speed 2 --as-fast-as-possible", "--speed and --as-fast-as-possible contradict each other")]
    [TestCase("--link COM3 --deadline-ms 20 --as-fast-as-possible", "--deadline-ms counts from when a sample was due")]
    [TestCase("--link COM3 --loop --endless", "--loop begins the stream anew and --endless goes on with it")]
    [TestCase("--link COM3 --damage drop=half", "--damage drop=half: damage drop is a share in per cent")]
    [TestCase("--link COM3 --damage-seed 3", "--damage-seed is of no use without damage")]
    [TestCase("--link COM3 --start-s 12 --as-fast-as-possible", "--start-s 12 leaves nothing of the stream, which is 12 s long")]
    [TestCase("--link COM3 --start-s 3 --closed-loop", "--closed-loop begins with the first settings")]
    [TestCase("--link COM3 --loop --closed-loop", "--closed-loop and --loop do not go together")]
    [TestCase("--link COM3 --baud 9600", "The stream needs ")]
    public void Replay_WrongOptions_SaysWhatWouldBeRight(string options, string expected)
    {
        string scenario = Scenario();

        string[] messages = Command.Refused(ExitCodes.WrongInput, ["replay", scenario, .. options.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--out", At("out")]);

        Assert.That(messages, Has.Length.EqualTo(1));
        Assert.That(messages[0], Does.StartWith(expected));
        Assert.That(Everything(), Is.EqualTo(new[] { "s.toml" }));
    }

    [Test]
    public void Replay_LineTooSlow_TellsNumbersAndWhatToChange() => Assert.That(
        Command.Refused(ExitCodes.WrongInput, "replay", Scenario(), "--link", "COM3", "--baud", "9600")[0],
        Does.Match(@"^The stream needs \d+ bytes/s, \d+ at worst, and the serial port COM3 at 9600 baud carries 960: .*baud.*lower rates"));

    [Test]
    public void Replay_RecordingWithOptionsOfAScenario_IsRefused()
    {
        Command.Run("record", Scenario(), "--out", At("recording"));

        Assert.That(Command.Refused(ExitCodes.WrongInput, "replay", At("recording"), "--link", "COM3", "--seed", "3")[0], Does.StartWith("--seed, --subject-seed"));
        Assert.That(Command.Refused(ExitCodes.WrongInput, "replay", At("recording"), "--link", "COM3", "--endless")[0], Does.StartWith("--endless makes more of a scenario"));
        Assert.That(Command.Refused(ExitCodes.WrongInput, "replay", At("recording"), "--link", "COM3", "--closed-loop")[0], Does.StartWith("--closed-loop changes settings"));
        Directory.CreateDirectory(At("empty"));
        Assert.That(Command.Refused(ExitCodes.WrongInput, "replay", At("empty"), "--link", "COM3")[0], Does.Contain("there is no channels.csv"));
    }

    [Test]
    public void Replay_NobodyListens_IsAFailureOfTheEnvironment()
    {
        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        int port = ((IPEndPoint)free.LocalEndpoint).Port;
        free.Stop();

        string[] messages = Command.Refused(ExitCodes.EnvironmentFailed, "replay", Scenario(), "--link", FormattableString.Invariant($"tcp:127.0.0.1:{port}"), "--out", At("out"));

        Assert.That(messages, Has.Length.EqualTo(1));
        Assert.That(Everything(), Is.EqualTo(new[] { "s.toml" }));
    }

    [Test]
    public void Replay_NoSuchPort_IsAFailureOfTheEnvironment()
    {
        string[] messages = Command.Refused(ExitCodes.EnvironmentFailed, "replay", Scenario(), "--link", At("no-port"), Fast, "--out", At("out"));

        Assert.That(messages[0], Does.Contain(At("no-port")));
        Assert.That(Everything(), Is.EqualTo(new[] { "s.toml" }));
    }

    [TestCase("silent", "Nothing came from the TCP port ")]
    [TestCase("raving", "No valid frame in ")]
    [TestCase("other version", "another version of the link protocol")]
    [TestCase("chooses another version", "speaks version 9 of the link protocol")]
    [TestCase("small payload", "takes payloads up to 100 bytes; it must take 240")]
    public void Replay_BoardThatCannotBeSpokenTo_IsAFailureOfTheEnvironment(string habit, string expected)
    {
        using var port = new BoardPort(habit switch
        {
            "silent" => new BoardHabits { IsSilent = true },
            "raving" => new BoardHabits { RavesAfter = 0 },
            "chooses another version" => new BoardHabits { Version = 9 },
            "small payload" => new BoardHabits { LargestPayload = 100 },
            _ => new BoardHabits { SpeaksAnotherVersion = true },
        });

        string[] messages = Command.Refused(ExitCodes.EnvironmentFailed, "replay", Scenario(), "--link", port.Address, Fast, "--out", At("out"));

        Assert.That(messages[^1], Does.Contain(expected));
        Assert.That(Everything(), Is.EqualTo(new[] { "s.toml" }));
    }

    [TestCase("dies", "crashed")]
    [TestCase("lies", "lying")]
    [TestCase("mute", "silent")]
    [TestCase("babbles", "babbling")]
    [TestCase("forgets", "crashed")]
    [TestCase("faults", "crashed")]
    [TestCase("says stopped too early", "crashed")]
    public void Replay_BoardThatFails_IsAVerdictAndKeepsWhatCame(string habit, string verdict)
    {
        using var port = new BoardPort(habit switch
        {
            "dies" => new BoardHabits { DiesAfter = 150 },
            "lies" => new BoardHabits { Lies = true },
            "mute" => new BoardHabits { IsMute = true },
            "babbles" => new BoardHabits { Copies = 2000 },
            "forgets" => new BoardHabits { ForgetsAfter = 150 },
            "says stopped too early" => new BoardHabits { ClaimsStopAfter = 150 },
            _ => new BoardHabits { FaultAfter = 150 },
        });

        Answer answer = Command.Run("replay", Scenario(seconds: 30), "--link", port.Address, Fast, "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet), answer.Error);
        Assert.That(answer.Out, Does.Contain($"\n{verdict}: "));
        Assert.That(File.Exists(At("out", "scores.json")), Is.True);
        if (habit is "dies" or "forgets" or "faults")
        {
            Assert.That(File.ReadLines(At("out", "detections.csv")).Count(), Is.GreaterThan(10));
        }
    }

    [Test]
    [CancelAfter(60_000)]
    public void Replay_BoardThatDiesInAnEndlessStream_EndsIt()
    {
        using var port = new BoardPort(new BoardHabits { DiesAfter = 150 });

        Answer answer = Command.Run("replay", Scenario(), "--link", port.Address, Fast, "--endless", "--json");

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet), answer.Error);
        Assert.That(answer.Out, Does.Contain("\"verdict\": \"crashed\"").And.Match("\"duration_s\": 1[5-7]\\b"));
    }

    [Test]
    public void Replay_BoardSlowerThanRealTime_IsLate()
    {
        using var port = new BoardPort(new BoardHabits { SlowMs = 60 });

        Answer answer = Command.Run("replay", Scenario(seconds: 12), "--link", port.Address, "--speed", "4", "--deadline-ms", "100");

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet), answer.Error);
        Assert.That(answer.Out, Does.Contain("\nlate: ").And.Contain("deadline 100 ms after an answer's last sample was due: "));
    }

    [Test]
    public void Replay_BoardUnpluggedAndPluggedIn_GoesOn()
    {
        using var port = new BoardPort(new BoardHabits { ForgetsAfter = 100 });

        Answer answer = Command.Run("replay", Scenario(seconds: 30), "--link", port.Address, Fast, "--replug-wait-s", "5");

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
        Assert.That(answer.Out, Does.Contain("1 session had to begin anew"));
    }

    [Test]
    public void Replay_LogOfTheBoard_IsShownAndKept()
    {
        using var port = new BoardPort(new BoardHabits { LogLines = 1 });

        Answer answer = Command.Run("replay", Scenario(), "--link", port.Address, Fast, "--out", At("out"));

        Assert.That(answer.Messages, Does.Contain("sensorsim: board: information: frame 7"));
        Assert.That(answer.Messages.Count(m => m.Contains(" board: ", StringComparison.Ordinal)), Is.LessThanOrEqualTo(200));
        Assert.That(File.ReadAllLines(At("out", "board.log")), Does.Contain("information: frame 7").And.Length.GreaterThanOrEqualTo(120));
    }

    [Test]
    public void Replay_Interrupted_EndsTheSessionAndTellsWhatThereIs()
    {
        using var port = new BoardPort();
        using var interrupt = new CancellationTokenSource(TimeSpan.FromSeconds(4));

        Answer answer = Command.Run(interrupt.Token, "replay", Scenario(seconds: 3600), "--link", port.Address, "--speed", "10", "--expect", "bit-exact", "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Interrupted), answer.Error);
        Assert.That(answer.Messages, Has.Some.StartsWith("sensorsim: interrupted after "));
        Assert.That(answer.Out, Does.Contain("stopped early").And.Contain("bit-exact: "));
        Assert.That(answer.Out, Does.Contain("state_bytes"), "figures come with the answer to stop");
        Assert.That(File.ReadLines(At("out", "detections.csv")).Count(), Is.GreaterThan(30));
    }

    [Test]
    public void Replay_InterruptedAtASlowSpeed_DoesNotWaitForTheSecondToPass()
    {
        using var port = new BoardPort();
        using var interrupt = new CancellationTokenSource(TimeSpan.FromSeconds(3));

        // At a tenth of real time a second of the stream takes ten; the first one is sent out when the interrupt comes.
        Answer answer = Command.Run(interrupt.Token, "replay", Scenario(seconds: 60), "--link", port.Address, "--speed", "0.1", "--out", At("out"));

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Interrupted), answer.Error);
        Assert.That(answer.Messages, Does.Contain("sensorsim: interrupted after 1 s; what came until then is told and written"));
    }

    [Test]
    public void Replay_IntoAFolderThatIsThere_LeavesOtherFiles()
    {
        Directory.CreateDirectory(At("out"));
        File.WriteAllText(At("out", "mine.txt"), "mine");
        using var port = new BoardPort();

        Assert.That(Command.Run("replay", Scenario(), "--link", port.Address, Fast, "--out", At("out")).Code, Is.EqualTo(ExitCodes.Done));
        Assert.That(File.ReadAllText(At("out", "mine.txt")), Is.EqualTo("mine"));
        Assert.That(Contents(At("out")).Keys, Does.Contain("detections.csv"));
    }

    [Test]
    [CancelAfter(120_000)]
    public void Replay_ProcessKilled_LeavesTheAnswersThatCameAndIsNotOverwritten()
    {
        using var port = new BoardPort();
        string program = Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? "sensorsim.exe" : "sensorsim");
        string scenario = Scenario(seconds: 3600);
        string unfinished = At("out.unfinished", "detections.csv");
        using (Process process = Process.Start(new ProcessStartInfo(program, ["replay", scenario, "--link", port.Address, "--speed", "20", "--out", At("out")]) { RedirectStandardError = true, RedirectStandardOutput = true })!)
        {
            while (!process.HasExited && (!File.Exists(unfinished) || File.ReadAllText(unfinished).Split('\n').Length < 50))
            {
                process.WaitForExit(50);
            }

            Assert.That(process.HasExited, Is.False);
            process.Kill();
            process.WaitForExit();
        }

        Assert.That(File.Exists(At("out")) || Directory.Exists(At("out")), Is.False);
        Assert.That(File.ReadAllText(unfinished), Does.EndWith("\n"));
        string message = Command.Refused(ExitCodes.EnvironmentFailed, "replay", scenario, "--link", port.Address, Fast, "--out", At("out")).Single();
        Assert.That(message, Does.StartWith($"{At("out")}.unfinished: an earlier run was cut off"));
        Assert.That(File.ReadAllText(unfinished).Split('\n'), Has.Length.GreaterThanOrEqualTo(50));
    }
}
