// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Identity;

namespace SensorSim.Cli.Tests;

/// <summary><c>vectors make</c> and <c>vectors verify</c>: files, exit codes, sentences.</summary>
[TestFixture]
public sealed class VectorsCommandTests : CommandTest
{
    private const string Plan = """
        [set]
        title = "Two"
        attached = ["codecs/crc.csv"]

        [[requirement]]
        id = "ECG-1"
        text = "Every beat is found."
        clause = "own"
        channel = "ecg"
        kind = "r_peak"
        rule = "marks"
        sensitivity_min = 0.9

        [[case]]
        name = "rest"
        scenario = "rest.toml"
        duration_s = 20
        level = "pass"
        requirements = ["ECG-1"]
        stimulus = ["bdf", "raw"]
        [[case.header]]
        channels = ["ecg"]
        """;

    [Test]
    public void A_set_is_made_verified_and_a_damaged_file_named()
    {
        string plan = WritePlan(Plan);
        Answer made = Command.Run("vectors", "make", plan, "--out", At("set"));
        Assert.That(made.Code, Is.Zero, made.Error);
        Assert.That(made.Out, Does.Contain("rest"));
        Assert.That(File.ReadAllText(At("set", "codecs", "crc.csv")), Is.EqualTo("name,input\n"));
        Assert.That(File.ReadAllText(At("set", "index.md")), Does.Contain("![signals of rest](rest/picture.png)").And.Contain("all met"));
        Answer verified = Command.Run("vectors", "verify", At("set"));
        Assert.That((verified.Code, verified.Error), Is.EqualTo((0, "")));
        Assert.That(verified.Out, Does.Contain("all as they must be; 1 case made again"));

        byte[] codes = File.ReadAllBytes(At("set", "rest", "ecg.i32"));
        codes[1000 * 4] ^= 1;
        File.WriteAllBytes(At("set", "rest", "ecg.i32"), codes);
        Answer damaged = Command.Run("vectors", "verify", At("set"), "--json");
        Assert.That(damaged.Code, Is.EqualTo(ExitCodes.NotMet));
        Assert.That(damaged.Messages, Has.Exactly(1).Contains("ecg.i32: byte 4000, ecg, sample 1000 at 4 s: "));
        using var json = JsonDocument.Parse(damaged.Out);
        JsonElement root = json.RootElement;
        Assert.That(root.GetProperty("findings")[0].GetProperty("file").GetString(), Is.EqualTo("rest/ecg.i32"));
        Assert.That(root.GetProperty("findings")[0].GetProperty("first_difference").GetProperty("sample").GetInt64(), Is.EqualTo(1000));
        Assert.That(root.GetProperty("cases")[0].GetProperty("streams").EnumerateObject().Select(p => p.Name), Is.EqualTo(new[] { "stimulus", "truth", "acquisition", "acceptance", "expected" }));

        Answer again = Command.Run("vectors", "make", plan, "--out", At("set"), "--json");
        Assert.That(again.Code, Is.Zero, again.Error);
        Assert.That(Command.Run("vectors", "verify", At("set")).Code, Is.Zero);
    }

    [Test]
    public void A_set_of_an_older_generator_is_told_to_be_one_and_not_to_be_damaged()
    {
        Answer made = Command.Run("vectors", "make", WritePlan(Plan), "--out", At("set"));
        Assert.That(made.Code, Is.Zero, made.Error);
        int older = SensorSim.Scenarios.Scenario.GeneratorVersion - 1;
        string manifest = At("set", "manifest.json");
        File.WriteAllText(manifest, File.ReadAllText(manifest).Replace($"\"generator_version\": {older + 1}", $"\"generator_version\": {older}", StringComparison.Ordinal));
        File.WriteAllBytes(At("set", "manifest.sha256"), SetManifestWriter.Sidecar(Sha256Sum.Of(File.ReadAllBytes(manifest))));

        Answer verified = Command.Run("vectors", "verify", At("set"));
        Assert.That(verified.Code, Is.EqualTo(ExitCodes.NotMet));
        Assert.That(verified.Out, Does.StartWith("  file").And.EndsWith("files, all as the manifest says, but of another version than this program; nothing made again\n").And.Not.Contain("wanting"));
        Assert.That(verified.Messages, Has.Length.EqualTo(1).And.Some.Contains($"made by generator version {older}; this program has {older + 1}"));

        using var json = JsonDocument.Parse(Command.Run("vectors", "verify", At("set"), "--json").Out);
        JsonElement root = json.RootElement;
        Assert.That(
            (root.GetProperty("generator_version").GetInt32(), root.GetProperty("program_generator_version").GetInt32()), Is.EqualTo((older, older + 1)));
        Assert.That(root.GetProperty("detector").GetString(), Is.EqualTo(root.GetProperty("program_detector").GetString()));

        File.AppendAllText(At("set", "rest", "truth.csv"), "\n");
        File.Delete(At("set", "index.md"));
        Assert.That(Command.Run("vectors", "verify", At("set")).Out, Does.Contain("files, 1 damaged, 1 missing; nothing made again"));
    }

    [Test]
    public void A_damaged_set_of_another_version_says_why_nothing_was_made_again()
    {
        Answer made = Command.Run("vectors", "make", WritePlan(Plan), "--out", At("set"));
        Assert.That(made.Code, Is.Zero, made.Error);
        int own = SensorSim.Scenarios.Scenario.GeneratorVersion;
        Manifest(text => text.Replace("\"sensorsim 0.", "\"sensorsim 99.", StringComparison.Ordinal));
        File.AppendAllText(At("set", "plan.toml"), "\n");
        Answer detector = Command.Run("vectors", "verify", At("set"));

        Assert.That(detector.Messages, Has.Exactly(1).Contains("its expected answers are those of sensorsim 99."));
        Assert.That(detector.Messages[^1], Is.EqualTo("sensorsim: nothing was made again: plan.toml, which it is made from, is damaged or missing"));

        // More is damaged than is said.
        Manifest(text => text.Replace($"\"generator_version\": {own}", $"\"generator_version\": {own - 1}", StringComparison.Ordinal));
        string[] files = [.. Directory.GetFiles(At("set"), "*", SearchOption.AllDirectories).Where(f => !Path.GetFileName(f).StartsWith("manifest", StringComparison.Ordinal))];
        Array.ForEach(files, f => File.AppendAllText(f, "\n"));
        Answer generator = Command.Run("vectors", "verify", At("set"));

        Assert.That(files, Has.Length.GreaterThan(20));
        Assert.That(generator.Messages[0], Does.Contain($"made by generator version {own - 1}; this program has {own}"));
        Assert.That(generator.Error, Does.Not.Contain("nothing was made again"), "that has been said");

        void Manifest(Func<string, string> change)
        {
            string manifest = At("set", "manifest.json");
            File.WriteAllText(manifest, change(File.ReadAllText(manifest)));
            File.WriteAllBytes(At("set", "manifest.sha256"), SetManifestWriter.Sidecar(Sha256Sum.Of(File.ReadAllBytes(manifest))));
        }
    }

    [Test]
    public void Answers_that_miss_a_requirement_let_nothing_be_written_unless_the_plan_says_why()
    {
        // Told a millisecond after the peak: the detector would have to know it before the samples are there.
        string wrong = Plan.Replace("rule = \"marks\"\nsensitivity_min = 0.9", "rule = \"prompt\"\nshare_min = 0.9\nlatency_ms_max = 1", StringComparison.Ordinal);
        Answer refused = Command.Run("vectors", "make", WritePlan(wrong), "--out", At("set"));
        Assert.That(refused.Code, Is.EqualTo(ExitCodes.NotMet));
        Assert.That(refused.Messages, Has.Some.Contains("case rest: ECG-1 is not met: "));
        Assert.That(Directory.Exists(At("set")), Is.False);
        string known = wrong + "\n[[case.deviation]]\nrequirement = \"ECG-1\"\nreason = \"It sees only what has been sampled.\"\n";
        Answer made = Command.Run("vectors", "make", WritePlan(known), "--out", At("set"));
        Assert.That(made.Code, Is.Zero, made.Error);
        Assert.That(File.ReadAllText(At("set", "index.md")), Does.Contain("known deviation").And.Contain("It sees only what has been sampled."));
        Assert.That(File.ReadAllText(At("set", "index.md")).Split("It sees only what has been sampled.", StringSplitOptions.None), Has.Length.EqualTo(2), "said once");

        // What is listed and no longer true is told.
        Answer idle = Command.Run("vectors", "make", WritePlan(known.Replace("latency_ms_max = 1", "latency_ms_max = 3000", StringComparison.Ordinal)), "--out", At("idle"));
        Assert.That(idle.Code, Is.Zero, idle.Error);
        Assert.That(idle.Messages, Has.Some.Contains("case rest: ECG-1 is listed as a known deviation, and is met").And.Some.Contains("take it out of the plan"));
    }

    [TestCase("vectors needs a verb: make, verify", "vectors")]
    [TestCase("mkae is no verb of vectors; the nearest is make of make, verify", "vectors", "mkae")]
    [TestCase("--out is no option of vectors; give one of its verbs first: make, verify", "vectors", "--out")]
    [TestCase("there is no such folder; give the folder of a vector set.", "vectors", "verify", "nowhere")]
    [TestCase("there is no such file", "vectors", "make", "nowhere.toml", "--out", "x")]
    public void What_cannot_be_is_refused_in_a_sentence(string sentence, params string[] words)
    {
        string[] messages = Command.Refused(ExitCodes.WrongInput, words);
        Assert.That(messages[0], Does.Contain(sentence));
    }

    [TestCase("../crc.csv")]
    [TestCase("/etc/hosts")]
    [TestCase("manifest.json")]
    [TestCase("rest/crc.csv")]
    [TestCase("sources/crc.csv")]
    public void A_file_that_goes_along_keeps_to_its_place(string path)
    {
        string[] messages = Command.Refused(ExitCodes.WrongInput, "vectors", "make", WritePlan(Plan.Replace("codecs/crc.csv", path, StringComparison.Ordinal)), "--out", At("set"));
        Assert.That(messages[0], Does.Contain("line 3").And.Contain("set.attached"));
    }

    [Test]
    public void A_foreign_file_in_the_place_of_the_set_is_left_alone()
    {
        Directory.CreateDirectory(At("set"));
        File.WriteAllText(At("set", "mine.txt"), "mine");
        string[] messages = Command.Refused(ExitCodes.WrongInput, "vectors", "make", WritePlan(Plan), "--out", At("set"));
        Assert.That(messages[0], Does.Contain("mine.txt").And.Contain("belongs to no vector set"));
        Assert.That(Directory.GetFileSystemEntries(At("set")), Has.Length.EqualTo(1));
    }

    private string WritePlan(string plan)
    {
        Directory.CreateDirectory(At("plan", "codecs"));
        File.WriteAllText(At("plan", "codecs", "crc.csv"), "name,input\n");
        File.WriteAllText(At("plan", "rest.toml"), "[scenario]\nduration_s = 60\n");
        File.WriteAllText(At("plan", "plan.toml"), plan);
        return At("plan", "plan.toml");
    }
}
