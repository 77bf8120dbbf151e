// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary><c>detect --audit</c> and <c>detect --trace</c>: a look inside the library.</summary>
[TestFixture]
public sealed class StageTests : CommandTest
{
    [SetUp]
    public void Record() => Assert.That(Command.Run("record", Scenario(seconds: 15), "--out", At("rec")).Code, Is.Zero);

    [Test]
    public void Audit_Table_HasARowOfNumbersForEachStageSeen()
    {
        Answer answer = Command.Run("detect", At("rec"), "--audit");

        Assert.That(answer.Code, Is.Zero, answer.Error);
        string[] lines = answer.Out.Split('\n');
        int head = Array.FindIndex(lines, l => l.StartsWith("stage ", StringComparison.Ordinal));
        string[][] rows = [.. lines.Skip(head + 1).TakeWhile(l => l.Length > 0).Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries))];
        Assert.That(head, Is.Positive);
        Assert.That(rows, Has.All.Length.EqualTo(11));
        Assert.That(rows.Select(r => r[0]), Is.SupersetOf(new[] { "ecg_input", "ecg_band_pass", "ecg_energy", "pulse_input", "pulse_slope" }));
        string[] input = rows.Single(r => r[0] == "ecg_input");
        int[] codes = Codes("ecg.csv");
        Assert.That(input[5..8], Is.EqualTo(new[] { Whole(codes.Min()), Whole(codes.Max()), Whole(codes.Length) }));
    }

    [Test]
    public void Audit_Json_SaysTheSame()
    {
        using JsonDocument json = JsonDocument.Parse(Command.Run("detect", At("rec"), "--audit", "--json").Out);
        JsonElement input = json.RootElement.GetProperty("audit").EnumerateArray().Single(r => r.GetProperty("stage").GetString() == "ecg_input");
        int[] codes = Codes("ecg.csv");

        Assert.That(input.GetProperty("lowest").GetInt32(), Is.EqualTo(codes.Min()));
        Assert.That(input.GetProperty("highest").GetInt32(), Is.EqualTo(codes.Max()));
        Assert.That(input.GetProperty("declared_bits").GetInt32(), Is.EqualTo(26));
        Assert.That(
            input.GetProperty("headroom_bits").GetDouble(),
            Is.EqualTo(25 - Math.Log2(codes.Max(c => Math.Abs((double)c)))).Within(1e-4));
        Assert.That(json.RootElement.GetProperty("marks").GetArrayLength(), Is.Positive);
    }

    [Test]
    public void Detect_WithoutAudit_SaysNothingOfIt()
    {
        Assert.That(Command.Run("detect", At("rec")).Out, Does.Not.Contain("headroom"));
        Assert.That(Command.Run("detect", At("rec"), "--json").Out, Does.Not.Contain("\"audit\""));
    }

    [Test]
    public void Trace_Input_IsTheRecording()
    {
        Answer answer = Command.Run("detect", At("rec"), "--trace", "ecg_input", "--trace", "pulse_slope", "--out", At("out"));

        Assert.That(answer.Code, Is.Zero, answer.Error);
        Assert.That(answer.Error, Does.Contain("detections.csv, trace_ecg_input.csv, trace_pulse_slope.csv written to"));
        string[] lines = File.ReadAllLines(At("out", "trace_ecg_input.csv"));
        Assert.That(lines[0], Is.EqualTo("sample,time_ns,value,channel"));
        int[] codes = Codes("ecg.csv");
        Assert.That(lines.Skip(1), Is.EqualTo(codes.Select((c, i) => FormattableString.Invariant($"{i},{i * 4_000_000L},{c},ecg"))));
        Assert.That(File.ReadAllLines(At("out", "trace_pulse_slope.csv"))[1], Does.StartWith("0,").And.EndsWith(",0,infrared"));
    }

    [Test]
    public void Watched_Detections_AreTheSameBytes()
    {
        Command.Run("detect", At("rec"), "--out", At("plain"));
        Command.Run("detect", At("rec"), "--audit", "--trace", "ecg_energy", "--out", At("watched"));

        Assert.That(File.ReadAllBytes(At("watched", "detections.csv")), Is.EqualTo(File.ReadAllBytes(At("plain", "detections.csv"))));
    }

    [Test]
    public void Trace_UnknownStage_SaysTheNearestAndAll()
    {
        string[] messages = Command.Refused(ExitCodes.WrongInput, "detect", At("rec"), "--trace", "ecg_bandpass", "--out", At("out"));

        Assert.That(messages.Single(), Does.StartWith(
            "--trace ecg_bandpass is no stage; the nearest is ecg_band_pass; the stages are ecg_input, ecg_without_spikes, "));
        Assert.That(Directory.Exists(At("out")), Is.False);
    }

    [Test]
    public void Trace_WithoutOut_SaysWhatIsMissing() => Assert.That(
        Command.Refused(ExitCodes.WrongInput, "detect", At("rec"), "--trace", "ecg_energy").Single(),
        Is.EqualTo("--trace ecg_energy writes a file; add --out, for example --out out/trace"));

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    private int[] Codes(string name) => [.. File.ReadLines(At("rec", name)).Skip(1)
        .Select(l => int.Parse(l.Split(',')[1], CultureInfo.InvariantCulture))];
}
