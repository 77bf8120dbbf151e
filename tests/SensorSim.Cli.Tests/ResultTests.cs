// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary>Results: the same bytes for the same identity, JSON alone on the output, messages elsewhere. No answer of a detector is needed here.</summary>
[TestFixture]
public sealed class ResultTests : CommandTest
{
    [TestCase("run")]
    [TestCase("record")]
    public void Verb_Twice_GivesTheSameBytes(string verb)
    {
        string scenario = Scenario();
        Answer first = Command.Run(verb, scenario, "--out", At("a"));
        Answer second = Command.Run(verb, scenario, "--out", At("b"));

        Assert.That(second.Out, Is.EqualTo(first.Out));
        Dictionary<string, byte[]> a = Contents(At("a"));
        Dictionary<string, byte[]> b = Contents(At("b"));
        Assert.That(b.Keys, Is.EquivalentTo(a.Keys));
        Assert.That(a.Keys.Where(name => !a[name].AsSpan().SequenceEqual(b[name])), Is.Empty);
    }

    [Test]
    public void Record_AnotherSeed_GivesOtherSamplesAndTruth()
    {
        string scenario = Scenario("[ecg_amplifier]\nwhite_noise_uv_rms = 5\n");
        Command.Run("record", scenario, "--out", At("a"));
        Command.Run("record", scenario, "--out", At("b"), "--seed", "2");
        Command.Run("record", Write("t.toml", File.ReadAllText(scenario).Replace("[ecg_", "seed = 2\n[ecg_", StringComparison.Ordinal)), "--out", At("c"));

        foreach (string name in new[] { "ecg.csv", "infrared.csv", "truth.csv" })
        {
            byte[] one = File.ReadAllBytes(At("a", name));
            byte[] two = File.ReadAllBytes(At("b", name));
            Assert.That(two, Is.Not.EqualTo(one), name);
            Assert.That(File.ReadAllBytes(At("c", name)), Is.EqualTo(two), "--seed is the seed of the scenario");
        }
    }

    [Test]
    public void Run_Out_HoldsWhatTheHelpSays()
    {
        Command.Run("run", Scenario(), "--out", At("out"));

        string[] names = [.. Contents(At("out")).Keys];
        Assert.That(names, Is.SupersetOf(new[] { "detections.csv", "truth.csv", "acquisition.csv", "scores.json" }));
        Assert.That(names, Is.SupersetOf(new[] { "signals.png", "signals.svg", "strip.png", "strip.svg" }));
        Assert.That(Everything(), Has.None.Contains(".partial"));
    }

    [Test]
    public void Run_Table_HasNoBlanksAtLineEnds()
    {
        Answer answer = Command.Run("run", Scenario("[requirements]\nr_peak_sensitivity_min = 0.5\n"));
        Assert.That(answer.Out, Does.Contain("channel").And.Contain("reading").And.Contain("requirement"));
        Assert.That(answer.Out.Split('\n'), Has.None.EndsWith(" "));
    }

    // Every column that is not plain words has a line under its table; figures without a column only where they say something.
    [Test]
    public void Run_Table_DefinesItsColumns()
    {
        string plain = Command.Run("run", Scenario()).Out;
        foreach (string column in new[] { "Se", "+P", "95 % interval", "bias, SD, p95", "bias, SD, RMS, p95", "wrong", "first", "with [%]", "late [ms]" })
        {
            Assert.That(plain, Does.Contain($"\n  {column}: "), column);
        }

        Assert.That(plain, Does.Not.Contain("classes of").And.Not.Contain("irregular rhythm:"));

        string ectopic = Command.Run("run", Path.Combine(Root, "waveforms", "scenarios", "rhythms", "ventricular-bigeminy.toml")).Out;
        Assert.That(ectopic, Does.Match("\nclasses of ecg r_peak: normal \\d+ of \\d+ found, ventricular ectopic \\d+ of \\d+ found\n"));
        Assert.That(ectopic, Does.Contain("\n  classes: true events by class of beat"));
        Assert.That(
            Command.Run("run", Path.Combine(Root, "waveforms", "scenarios", "rhythms", "atrial-fibrillation.toml")).Out,
            Does.Match("\nirregular rhythm: flagged .* of 21\\.0 s .*\n  rhythm: flag of irregular rhythm"));
    }

    // Noise of 0 dB, white at 250 Hz: 12 of 125 Hz between 8 and 20 Hz, 10 log10(125/12) = 10.2 dB.
    [Test]
    public void Run_NoisyEcg_TellsItsRatiosAndACleanOneNothing()
    {
        Assert.That(
            Command.Run("run", Scenario("[ecg_noise]\nwhite_noise_snr_db = 0\n")).Out,
            Does.Contain("\nECG noise at the start, as its knobs set it: SNR 0.0 dB, from 8 to 20 Hz 10.2 dB\n"));
        Assert.That(Command.Run("run", Scenario()).Out, Does.Not.Contain("ECG noise"));
    }

    [Test]
    public void Run_Json_IsTheFileAndNothingElse()
    {
        Answer answer = Command.Run("run", Scenario(), "--json", "--out", At("out"));

        Assert.That(answer.Out, Is.EqualTo(File.ReadAllText(At("out", "scores.json"))));
        using JsonDocument json = JsonDocument.Parse(answer.Out);
        Assert.That(json.RootElement.GetProperty("schema_version").GetInt32(), Is.EqualTo(1));
        Assert.That(answer.Messages, Is.EqualTo(new[] { $"sensorsim: files written to {At("out")}" }));
    }

    [Test]
    public void RecordDetectScore_Chain_FitsTogether()
    {
        string scenario = Scenario(seconds: 20);
        Answer record = Command.Run("record", scenario, "--out", At("rec"), "--json");
        Answer detect = Command.Run("detect", At("rec"), "--out", At("det"), "--json");
        Answer score = Command.Run("score", At("rec", "truth.csv"), At("det", "detections.csv"), "--out", At("sc"), "--json");

        using JsonDocument recorded = JsonDocument.Parse(record.Out);
        using JsonDocument detected = JsonDocument.Parse(detect.Out);
        using JsonDocument scored = JsonDocument.Parse(score.Out);
        Assert.That(record.Code, Is.Zero);
        Assert.That(recorded.RootElement.GetProperty("sample_count").GetInt64(), Is.EqualTo(700 * 20));
        Assert.That(detected.RootElement.GetProperty("sample_count").GetInt64(), Is.EqualTo(700 * 20));
        Assert.That(detected.RootElement.GetProperty("marks").ValueKind, Is.EqualTo(JsonValueKind.Array));
        Assert.That(scored.RootElement.GetProperty("duration_s").GetDouble(), Is.EqualTo(20));
        Assert.That(score.Error, Does.Contain($"delays and unusable stretches from {At("rec", "acquisition.csv")}"));
        Assert.That(score.Out, Is.EqualTo(File.ReadAllText(At("sc", "scores.json"))));

        // The same detector on the same samples: run and chain must agree, whatever it answers.
        Command.Run("run", scenario, "--out", At("run"));
        Assert.That(File.ReadAllBytes(At("det", "detections.csv")), Is.EqualTo(File.ReadAllBytes(At("run", "detections.csv"))));
        Assert.That(File.ReadAllBytes(At("rec", "truth.csv")), Is.EqualTo(File.ReadAllBytes(At("run", "truth.csv"))));
        using JsonDocument ran = JsonDocument.Parse(File.ReadAllText(At("run", "scores.json")));
        Assert.That(scored.RootElement.GetProperty("scores").GetRawText(), Is.EqualTo(ran.RootElement.GetProperty("scores").GetRawText()));
    }

    [TestCase("--unit mv --channel ecg", "mV")]
    [TestCase("--unit mv --channel ecg --uv-per-code 2.5", "0.0025 mV")]
    public void Detect_ColumnInMillivolts_SaysItsScale(string options, string expected)
    {
        string path = Write("ecg.csv", "ecg_mv\n" + string.Concat(Enumerable.Repeat("0.1\n-0.25\n", 2000)));

        Answer answer = Command.Run(["detect", path, "--rate-hz", "250", .. options.Split(' '), "--out", At("out")]);

        // 4000 samples at 250 Hz are 16 s.
        Assert.That(answer.Code, Is.AnyOf(ExitCodes.Done, ExitCodes.NotMet));
        Assert.That(answer.Out, Does.Contain(": 16 s").And.Contain("250 Hz, ").And.Contain(expected));
        Assert.That(File.ReadAllText(At("out", "detections.csv")), Does.StartWith("channel,kind,sample,time_ns,"));
    }

    [Test]
    public void Score_BeatList_CountsWhatIsThere()
    {
        string truth = Write("beats.csv", "sample,label,confidence\n3600,normal,high\n3960,wide,low\n4320,normal,high\n4680,normal,high\n");
        string marks = Write("d.csv", "channel,kind,time_ns\necg,r_peak,10002000000\necg,r_peak,12001000000\necg,r_peak,14000000000\n");
        string exclude = Write("x.csv", "begin_s,end_s,reason\n13.5,14.5,lead off\n");

        Answer all = Command.Run("score", truth, marks, "--rate-hz", "360", "--duration-s", "20", "--json");
        Answer less = Command.Run("score", truth, marks, "--rate-hz", "360", "--duration-s", "20", "--exclude", exclude, "--json");

        // Beats at 10, 11 (optional), 12 and 13 s; answers 2 ms and 1 ms late, and one at 14 s where nothing is.
        Assert.That(Row(all), Is.EqualTo((3, 2, 1, 1)));
        Assert.That(Row(less), Is.EqualTo((3, 2, 1, 0)));
        using JsonDocument json = JsonDocument.Parse(all.Out);
        Assert.That(json.RootElement.GetProperty("scores")[0].GetProperty("timing_bias_ms").GetDouble(), Is.EqualTo(1.5).Within(1e-9));
    }

    [TestCase(0.6, 0)]
    [TestCase(0.7, 1)]
    public void Score_Requirements_DecideTheCode(double limit, int code)
    {
        string truth = Write("beats.csv", "time_s\n10\n12\n13\n");
        string marks = Write("d.csv", "channel,kind,time_ns\necg,r_peak,10002000000\necg,r_peak,12001000000\n");
        string requirements = Write("r.toml", FormattableString.Invariant($"[requirements]\nr_peak_sensitivity_min = {limit}\n"));

        // Two of three: 0.667.
        Assert.That(Command.Run("score", truth, marks, "--duration-s", "20", "--requirements", requirements).Code, Is.EqualTo(code));
    }

    private static (int Reference, int Matched, int Missed, int Extra) Row(Answer answer)
    {
        using JsonDocument json = JsonDocument.Parse(answer.Out);
        JsonElement row = json.RootElement.GetProperty("scores")[0];
        return (Count("reference_count"), Count("matched"), Count("missed"), Count("extra"));

        int Count(string name) => row.GetProperty(name).GetInt32();
    }
}
