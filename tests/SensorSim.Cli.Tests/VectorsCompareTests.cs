// SPDX-License-Identifier: MIT
using System.Text.Json;
using System.Xml.Linq;

namespace SensorSim.Cli.Tests;

/// <summary><c>vectors compare</c> on a small set: the library, files, a spoilt answer, the files it writes, exit codes.</summary>
[TestFixture]
public sealed class VectorsCompareTests
{
    private const string Plan = """
        [set]
        title = "small"
        [[requirement]]
        id = "ECG-1"
        text = "Every beat is found, and nothing else."
        clause = "own"
        channel = "ecg"
        kind = "r_peak"
        rule = "marks"
        sensitivity_min = 1
        positive_predictivity_min = 1
        [[requirement]]
        id = "NO-1"
        text = "Nobody asks it | really."
        clause = "own"
        kind = "spo2_percent"
        rule = "withheld"
        [[case]]
        name = "rest"
        scenario = "s.toml"
        level = "pass"
        requirements = ["ECG-1"]
        stimulus = []
        [[case]]
        name = "idle"
        scenario = "s.toml"
        seed = 2
        level = "pass"
        requirements = []
        stimulus = []
        """;

    private string _folder = "";

    [OneTimeSetUp]
    public void MakeSet()
    {
        _folder = Directory.CreateTempSubdirectory("compare-").FullName;
        File.WriteAllText(At("s.toml"), "[scenario]\nduration_s = 14\n");
        File.WriteAllText(At("plan.toml"), Plan + "\n");
        Answer made = Command.Run("vectors", "make", At("plan.toml"), "--out", At("set"));
        Assert.That(made.Code, Is.Zero, made.Error);
        Directory.CreateDirectory(At("answers"));
        File.Copy(At("set", "rest", "expected.csv"), At("answers", "rest.csv"));
        string[] lines = File.ReadAllLines(At("answers", "rest.csv"));
        int peak = Array.FindLastIndex(lines, l => l.StartsWith("ecg,r_peak", StringComparison.Ordinal) && long.Parse(l.Split(',')[3], System.Globalization.CultureInfo.InvariantCulture) < 12_500_000_000);
        File.WriteAllLines(At("spoilt.csv"), ["case," + lines[0], .. lines.Where((_, i) => i > 0 && i != peak).Select(l => "rest," + l)]);
    }

    [OneTimeTearDown]
    public void RemoveSet() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void Library_MeetsItsSet()
    {
        Answer answer = Command.Run("vectors", "compare", At("set"));
        Assert.That(answer.Code, Is.Zero, answer.Error);
        Assert.That(answer.Out, Does.Contain("small: answers of sensorsim ").And.Contain("requirements that no case is held against: NO-1").And.Contain("cases that ask nothing: idle").And.EndsWith("requirements met\n"));
    }

    [Test]
    public void Answers_OfAFolder_AreJudged() => Assert.That(Command.Run("vectors", "compare", At("set"), "--answers", At("answers")).Code, Is.Zero);

    [Test]
    public void SpoiltAnswers_AreNamed_AndFilesAreWritten()
    {
        Answer answer = Command.Run(
            "vectors", "compare", At("set"), "--answers", At("spoilt.csv"), "--out", At("out"), "--device", "bench 3", "--firmware", "1.4", "--operator", "somebody", "--date", "2026-05-04");
        Assert.That(answer.Code, Is.EqualTo(1));
        Assert.That(answer.Messages[0], Does.StartWith("sensorsim: rest, ECG-1: ").And.Contains(" found, 0 extra, first missed at "));
        Assert.That(
            Directory.GetFiles(At("out")).Select(Path.GetFileName).Order(), Is.EqualTo(new[] { "results.json", "results.trx", "results.xml", "run-record.json", "traceability.md" }));
        using var results = JsonDocument.Parse(File.ReadAllText(At("out", "results.json")));
        Assert.That(results.RootElement.GetProperty("is_met").GetBoolean(), Is.False);
        JsonElement verdict = results.RootElement.GetProperty("cases")[0].GetProperty("requirements")[0];
        Assert.That((verdict.GetProperty("requirement").GetString(), verdict.GetProperty("outcome").GetString()), Is.EqualTo(("ECG-1", "not_met")));
        using var record = JsonDocument.Parse(File.ReadAllText(At("out", "run-record.json")));
        Assert.That(record.RootElement.GetProperty("date").GetString(), Is.EqualTo("2026-05-04"));
        Assert.That(record.RootElement.GetProperty("manifest_sha256").GetString(), Is.EqualTo(File.ReadAllText(At("set", "manifest.sha256"))[..64]), "names the set to the bit");
        Assert.That(
            record.RootElement.GetProperty("answers_sha256").GetProperty("rest").GetString(), Is.EqualTo(Sum(At("spoilt.csv"))), "which answers they were");
        foreach (JsonProperty file in record.RootElement.GetProperty("results_sha256").EnumerateObject())
        {
            Assert.That(file.Value.GetString(), Is.EqualTo(Sum(At("out", file.Name))), file.Name);
        }

        Assert.That(record.RootElement.GetProperty("results_sha256").EnumerateObject().Count(), Is.EqualTo(4));
        Assert.That(
            XDocument.Load(At("out", "results.xml")).Descendants("property").Where(p => (string?)p.Attribute("name") is "device" or "date").Select(p => (string?)p.Attribute("value")),
            Is.EqualTo(new[] { "bench 3", "2026-05-04" }));
        Assert.That((string?)XDocument.Load(At("out", "results.trx")).Root!.Elements().First(e => e.Name.LocalName == "Times").Attribute("start"), Does.StartWith("2026-05-04T00:00:00"));
        Assert.That(XDocument.Load(At("out", "results.xml")).Descendants("failure").Count(), Is.EqualTo(1));
        Assert.That(XDocument.Load(At("out", "results.trx")).Descendants().Count(e => (string?)e.Attribute("outcome") == "Failed" && e.Name.LocalName == "UnitTestResult"), Is.EqualTo(1));
        string matrix = File.ReadAllText(At("out", "traceability.md"));
        Assert.That(matrix, Does.Contain("Outcome: **not met**. Of 1 results 0 met, 0 known deviation, 0 not judged, 1 not met.\n\n- device: bench 3\n- firmware: 1.4\n- operator: somebody\n- date: 2026-05-04\n")
            .And.Contain("| ECG-1 | Every beat is found, and nothing else. | own | not met | not met: rest |\n").And.Contain("| NO-1 | Nobody asks it \\| really. | own | no case |  |\n"));
    }

    [Test]
    public void SameAnswers_SameFiles()
    {
        Assert.That(Command.Run("vectors", "compare", At("set"), "--out", At("one")).Code, Is.Zero);
        Assert.That(Command.Run("vectors", "compare", At("set"), "--out", At("two")).Code, Is.Zero);
        foreach (string file in Directory.GetFiles(At("one")))
        {
            Assert.That(File.ReadAllBytes(file), Is.EqualTo(File.ReadAllBytes(At("two", Path.GetFileName(file)))), file);
        }

        Assert.That(File.Exists(At("one", "run-record.json")), Is.False, "nobody said who");
    }

    [Test]
    public void AgainstExpected_EveryDigitCounts()
    {
        Answer same = Command.Run("vectors", "compare", At("set"), "--against", "expected");
        Assert.That(same.Code, Is.Zero, same.Error);
        Answer spoilt = Command.Run("vectors", "compare", At("set"), "--answers", At("spoilt.csv"), "--against", "expected", "--json");
        Assert.That(spoilt.Code, Is.EqualTo(1));
        Assert.That(spoilt.Messages[0], Does.Contain("first difference: r_peak in ecg at ").And.EndsWith("is expected and was not given"));
        Assert.That(spoilt.Messages[1], Does.StartWith("sensorsim: idle: no answers to this case were given"));
    }

    // A case without answers is not passed over: each of its requirements reads not judged, in every file.
    [Test]
    public void CaseWithoutAnswers_IsNotJudged()
    {
        File.WriteAllText(At("idle-only.csv"), "case,channel,kind,time_ns\nidle,ecg,r_peak,5\n");
        Answer answer = Command.Run("vectors", "compare", At("set"), "--answers", At("idle-only.csv"), "--out", At("bare"));
        Assert.That(answer.Code, Is.EqualTo(1));
        Assert.That(answer.Messages[0], Is.EqualTo("sensorsim: rest, ECG-1: not judged: no answers to this case were given; where it was run and nothing answered, give a row with rest in the column case and nothing else, or rest.csv with the header alone"));
        Assert.That(File.ReadAllText(At("bare", "traceability.md")), Does.Contain("| own | not judged | not judged: rest |").And.Contain("Of 1 results 0 met, 0 known deviation, 1 not judged, 0 not met."));
        XElement failed = XDocument.Load(At("bare", "results.xml")).Descendants("failure").Single().Parent!;
        Assert.That(((string?)failed.Attribute("classname"), (string?)failed.Attribute("name")), Is.EqualTo(("rest", "ECG-1")));
    }

    [Test]
    public void AgainstExpected_TheMatrixSaysNothingOfRequirements()
    {
        Assert.That(Command.Run("vectors", "compare", At("set"), "--against", "expected", "--out", At("exact")).Code, Is.Zero);
        string matrix = File.ReadAllText(At("exact", "traceability.md"));
        Assert.That(matrix, Does.Contain("2 of 2 cases are as expected").And.Not.Contains("not judged").And.Not.Contains("## Requirements"));
    }

    [Test]
    public void Results_DoNotGoIntoTheSet()
    {
        foreach (string place in new[] { At("set"), At("set", "results"), At("set", "..", "set", "rest") })
        {
            Assert.That(Command.Refused(2, "vectors", "compare", At("set"), "--out", place)[0], Does.Contain("lies in the set"));
        }

        Directory.CreateSymbolicLink(At("way"), At("set"));
        Assert.That(Command.Refused(2, "vectors", "compare", At("set"), "--out", At("way", "x"))[0], Does.Contain("lies in the set"));
        Assert.That(Command.Run("vectors", "verify", At("set")).Code, Is.Zero);
    }

    [Test]
    public void MoreAnswersThanCanBe_AreRefused()
    {
        // Two cases of 14 s: 1000 and 200 for each second, twice.
        File.WriteAllLines(At("many.csv"), Enumerable.Range(0, 7601).Select(i => FormattableString.Invariant($"rest,ecg,r_peak,{i}")).Prepend("case,channel,kind,time_ns"));
        Assert.That(Command.Refused(2, "vectors", "compare", At("set"), "--answers", At("many.csv"))[0], Does.Contain("more than 7600 answers"));
    }

    [Test]
    public void Stimulus_IsMadeWhereNoneIsShipped()
    {
        Assert.That(File.Exists(At("set", "rest", "ecg.i32")), Is.False);
        Answer answer = Command.Run("vectors", "stimulus", At("set"), "--case", "rest", "--out", At("samples"), "--json");
        Assert.That(answer.Code, Is.Zero, answer.Error);
        using var json = JsonDocument.Parse(answer.Out);
        using var manifest = JsonDocument.Parse(File.ReadAllText(At("set", "manifest.json")));
        JsonElement one = json.RootElement.GetProperty("cases")[0];
        Assert.That(one.GetProperty("is_as_in_manifest").GetBoolean());
        Assert.That(one.GetProperty("stimulus_sha256").GetString(), Is.EqualTo(manifest.RootElement.GetProperty("cases")[0].GetProperty("sha256").GetProperty("stimulus").GetString()));
        Assert.That(Directory.GetFiles(At("samples", "rest")).Select(Path.GetFileName), Does.Contain("ecg.i32").And.Contain("stimulus.bdf").And.Contain("stimulus-channels.csv"));

        // As the page says: the sum of the lines that sha256sum prints.
        string folder = At("samples", "rest");
        string lines = string.Concat(File.ReadAllLines(Path.Combine(folder, "stimulus-channels.csv")).Skip(1).Select(l => l.Split(',')[0])
            .SelectMany(c => new[] { $"{c}.i32", $"{c}-runs.csv" }).Prepend("stimulus-channels.csv").Select(f => $"{Sum(Path.Combine(folder, f))}  {f}\n"));
        Assert.That(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.ASCII.GetBytes(lines))), Is.EqualTo(one.GetProperty("stimulus_sha256").GetString()));
        Assert.That(Command.Refused(2, "vectors", "stimulus", At("set"), "--case", "rset", "--out", At("no"))[0], Is.EqualTo("rset is no case of the set; the nearest is rest"));
        Assert.That(Path.Exists(At("no")), Is.False);
    }

    [Test]
    public void WhatDoesNotFit_IsRefused()
    {
        Assert.That(Command.Refused(2, "vectors", "compare", At("answers"))[0], Does.Contain("holds no manifest.json"));
        Assert.That(
            Command.Refused(2, "vectors", "compare", At("set"), "--answers", At("answers"), "--detector-command", "x"),
            Is.EqualTo(new[] { "--answers, a detector of your own and --link each say whose answers they are; keep one" }));
        Assert.That(Command.Refused(2, "vectors", "compare", At("set"), "--device", "x"), Is.EqualTo(new[] { "--device, --firmware, --operator and --date go into a run record; add --out DIR for it" }));
        Assert.That(Command.Refused(2, "vectors", "compare", At("set"), "--device", new string('x', 201), "--out", At("no"))[0], Does.Contain("--device must be text on one line"));
        Assert.That(Command.Refused(3, "vectors", "compare", At("set"), "--link", "tcp:127.0.0.1:1"), Has.Length.EqualTo(1));
        Assert.That(Path.Exists(At("no")), Is.False);
    }

    // Another implementation, in another language: the one that the page tells.
    [Test]
    public void ScriptOfTheDocs_CountsTheSame()
    {
        string page = File.ReadAllText(Path.Combine(Repository(), "docs", "vectors.md"));
        string script = page.Split("```python\n")[1].Split("```")[0];
        File.WriteAllText(At("judge.py"), script);
        File.WriteAllLines(At("plain.csv"), File.ReadAllLines(At("spoilt.csv")).Select(l => l[(l.IndexOf(',', StringComparison.Ordinal) + 1)..]));
        var start = new System.Diagnostics.ProcessStartInfo("python3", [At("judge.py"), At("set", "rest", "acceptance.csv"), At("plain.csv")]) { RedirectStandardOutput = true };
        using var python = System.Diagnostics.Process.Start(start)!;
        string printed = python.StandardOutput.ReadToEnd();
        python.WaitForExit();
        using var results = JsonDocument.Parse(Command.Run("vectors", "compare", At("set"), "--answers", At("spoilt.csv"), "--json").Out);
        double[] figures = [.. results.RootElement.GetProperty("cases")[0].GetProperty("requirements")[0].GetProperty("figures").EnumerateArray().Take(3).Select(f => f.GetProperty("value").GetDouble())];
        Assert.That(printed, Is.EqualTo(FormattableString.Invariant($"ECG-1 rows={figures[0]} hit={figures[1]} surplus={figures[2]} inside=0 wrong=0\n")));
        Assert.That(figures[1], Is.EqualTo(figures[0] - 1), "one was taken out");
    }

    private static string Sum(string path) => Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(path)));

    private static string Repository()
    {
        string at = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(at, "SensorSim.sln")))
        {
            at = Path.GetDirectoryName(at)!;
        }

        return at;
    }

    private string At(params string[] names) => Path.Combine([_folder, .. names]);
}
