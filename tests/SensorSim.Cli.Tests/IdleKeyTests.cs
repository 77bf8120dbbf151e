// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary>A key that has no effect is told once, on the standard error, and changes no result.</summary>
[TestFixture]
public sealed class IdleKeyTests : CommandTest
{
    private const string Idle = "[ecg_noise]\nslow_motion_snr_db = 6\n";
    private const string Told = "sensorsim: ecg_noise.slow_motion_snr_db has no effect: the body never moves; set movement.activity, or ecg_noise.slow_motion_rest_per_min for transients at rest";

    [Test]
    public void RunAndRecord_IdleKey_IsToldOnce()
    {
        Answer run = Command.Run("run", Scenario(Idle));
        Answer record = Command.Run("record", Scenario(Idle), "--out", At("rec"));
        Answer without = Command.Run("run", Scenario());

        Assert.That(new[] { run.Code, record.Code }, Is.All.Zero, run.Error);
        Assert.That(run.Messages, Is.EqualTo(new[] { Told }));
        Assert.That(record.Messages.Count(m => m == Told), Is.EqualTo(1), record.Error);
        Assert.That(run.Out, Is.EqualTo(without.Out), "the key does nothing");
    }

    [Test]
    public void Run_SensorWithSuchAKey_IsNotTold()
    {
        string sensor = Write("sensor.toml", "[optics]\nmovement_coherence_percent = 80\n");
        Answer run = Command.Run("run", Scenario(), "--sensor", sensor);

        Assert.That((run.Code, run.Error), Is.EqualTo((0, "")));
    }

    [Test]
    public void Sweep_VariedKeyWithoutEffectAnywhere_IsToldAndKept()
    {
        Answer sweep = Command.Run("sweep", Study("[[vary]]\nkey = \"ecg_noise.slow_motion_snr_db\"\nvalues = [6, -6]\n"), "--out", At("out"));

        Assert.That(sweep.Messages.Count(m => m == Told), Is.EqualTo(1), sweep.Error);
        JsonElement notices = JsonDocument.Parse(File.ReadAllText(At("out", "summary.json"))).RootElement.GetProperty("notices");
        Assert.That(notices.EnumerateArray().Select(n => "sensorsim: " + n.GetString()), Is.EqualTo(new[] { Told }));
    }

    // Levels that are nothing, or what the key has anyway: one alone in a scenario is not told.
    [TestCase("10, 20")]
    [TestCase("0, 20")]
    [TestCase("0, 10")]
    public void Sweep_VariedKeyWithoutEffect_IsToldThoughALevelIsItsDefault(string values)
    {
        Answer sweep = Command.Run("sweep", Study($"[[vary]]\nkey = \"ambient.flicker_percent\"\nvalues = [{values}]\n"), "--out", At("out"));

        Assert.That(sweep.Messages.Count(m => m.StartsWith("sensorsim: ambient.flicker_percent has no effect", StringComparison.Ordinal)), Is.EqualTo(1), sweep.Error);
    }

    // Whoever reads the files does not see the standard error of the one who made them.
    [Test]
    public void Files_IdleKey_TellItOnce()
    {
        string sentence = Told["sensorsim: ".Length..];
        Command.Run("sweep", Study("[[vary]]\nkey = \"ecg_noise.slow_motion_snr_db\"\nvalues = [6, -6]\n"), "--out", At("out"));
        Command.Run("compare", At("out"), At("out"), "--out", At("compared"));
        Command.Run("run", Scenario(Idle), "--out", At("run"));

        foreach (string page in new[] { At("out", "report.html"), At("compared", "compare.html") })
        {
            Assert.That(File.ReadAllText(page).Split($"<li>Notice: {sentence}.</li>"), Has.Length.EqualTo(2), page);
        }

        foreach (string document in new[] { At("compared", "compare.json"), At("run", "scores.json") })
        {
            using var json = JsonDocument.Parse(File.ReadAllText(document));
            Assert.That(json.RootElement.GetProperty("notices").EnumerateArray().Select(n => n.GetString()), Is.EqualTo(new[] { sentence }), document);
        }
    }

    [Test]
    public void Sweep_KeyWithAnEffectSomewhere_IsNotTold()
    {
        string vary = "[[vary]]\nkey = \"ecg_noise.slow_motion_snr_db\"\nvalues = [6, -6]\n[[vary]]\nkey = \"movement.activity\"\nvalues = [\"rest\", \"walking\"]\n";
        Answer sweep = Command.Run("sweep", Study(vary), "--out", At("out"));

        Assert.That(sweep.Error, Does.Not.Contain("no effect"));
    }

    // Of more points than are looked at beforehand nothing is known: at 52 of these 210 the body walks.
    [Test]
    public void Sweep_MorePointsThanAreLookedAt_IsNotTold()
    {
        Scenario("[movement]\ncadence_hz = 1.5\n", seconds: 14);
        string study = Write(
            "study.toml",
            "[study]\nscenario = \"s.toml\"\nseed_count = 1\narrangement = \"latin_hypercube\"\npoint_count = 210\narrangement_seed = 10\n"
            + "[[vary]]\nkey = \"movement.activity\"\nvalues = [\"rest\", \"walking\"]\n[[vary]]\nkey = \"movement.amplitude_g\"\nvalues = [0, 0.5]\n"
            + "[[vary]]\nkey = \"heart.rate_bpm\"\nfrom = 50\nto = 100\n");
        Answer sweep = Command.Run("sweep", study, "--out", At("out"));

        Assert.That(sweep.Code, Is.Zero, sweep.Error);
        Assert.That(sweep.Error, Does.Not.Contain("no effect"));
    }

    private string Study(string vary)
    {
        Scenario(seconds: 14);
        return Write("study.toml", $"[study]\nscenario = \"s.toml\"\nseed_count = 1\n{vary}[requirements]\nr_peak_sensitivity_min = 0.9\n");
    }
}
