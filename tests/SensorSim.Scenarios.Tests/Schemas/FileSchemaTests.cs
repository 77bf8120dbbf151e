// SPDX-License-Identifier: MIT
using System.Text;
using System.Text.Json;
using Json.Schema;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Schemas;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.Schemas;

/// <summary>The schemas judge files as the readers do, as far as a schema can. Judged by a library for JSON Schema draft-07 (json-schema.org), not by code of this project.</summary>
[TestFixture]
public sealed class FileSchemaTests
{
    private static readonly Dictionary<string, JsonSchema> s_schemas = FileSchemas.All.ToDictionary(s => s.Name, s => JsonSchema.FromText(Text(s)));

    private static IEnumerable<TestCaseData> ShippedFiles =>
        from folder in new[] { "waveforms", "docs" }
        from path in Directory.GetFiles(Path.Combine(Repository.Root, folder), "*.toml", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
        let shown = Path.GetRelativePath(Repository.Root, path).Replace('\\', '/')
        select new TestCaseData(KindOf(shown), path).SetArgDisplayNames(shown);

    private static IEnumerable<string> Kinds => FileSchemas.All.Select(s => s.Name);

    private static IEnumerable<string> NumberKeys => AllKeys.List().OfType<NumberKey>().Select(k => k.Name);

    [TestCaseSource(nameof(ShippedFiles))]
    public void Schema_ShippedFile_Takes(string kind, string path) => Assert.That(Mistakes(kind, File.ReadAllText(path)), Is.Empty);

    [TestCaseSource(nameof(Kinds))]
    public void Schema_ItsOwnDraft_Holds(string kind)
    {
        using JsonDocument schema = JsonDocument.Parse(Text(FileSchemas.All.Single(s => s.Name == kind)));

        Assert.That(MetaSchemas.Draft7.Evaluate(schema.RootElement).IsValid);
        Assert.That(schema.RootElement.GetProperty("$schema").GetString(), Is.EqualTo("http://json-schema.org/draft-07/schema#"));
    }

    [TestCase("scenario", "[hart]\nrate_bpm = 60", TestName = "A section that is none")]
    [TestCase("scenario", "[heart]\nrate = 60", TestName = "A key that is none")]
    [TestCase("scenario", "rate_bpm = 60", TestName = "A key outside of every section")]
    [TestCase("scenario", "[heart]\nrate_bpm = \"60\"", TestName = "Text for a number")]
    [TestCase("scenario", "[scenario]\nseed = 1.5", TestName = "A fraction for a whole number")]
    [TestCase("scenario", "[movement]\nactivity = \"flying\"", TestName = "A word that is none")]
    [TestCase("scenario", "[scenario]\ntitle = \"a\\nb\"", TestName = "Two lines for one")]
    [TestCase("scenario", "[change]\nat_s = 1\nkey = \"heart.rate_bpm\"\nstep_to = 70", TestName = "One bracket for two")]
    [TestCase("scenario", "[[heart]]\nrate_bpm = 60", TestName = "Two brackets for one")]
    [TestCase("scenario", "[[change]]\nkey = \"heart.rate_bpm\"\nstep_to = 70", TestName = "A change without a time")]
    [TestCase("scenario", "[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"", TestName = "A change without a way")]
    [TestCase("scenario", "[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"\nstep_to = 70\nramp_to = 80\nover_s = 2", TestName = "A change of two ways")]
    [TestCase("scenario", "[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"\nramp_to = 80", TestName = "A ramp without a length")]
    [TestCase("scenario", "[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"\nstep_to = 70\nover_s = 2", TestName = "A length beside a step")]
    [TestCase("scenario", "[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"\nramp_to = 80\nover_s = 2\ntime_constant_s = 3", TestName = "A time constant beside a ramp")]
    [TestCase("scenario", "[[change]]\nat_s = 1\nkey = \"scenario.seed\"\nstep_to = 70", TestName = "A change of a fixed key")]
    [TestCase("scenario", "[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"\nfollow = [[0, 70, 3]]", TestName = "A point of three numbers")]
    [TestCase("scenario", "[[activity]]\nat_s = 1\nname = \"walking\"\nfor_s = 0", TestName = "An activity of no length")]
    [TestCase("scenario", "[[setting]]\nat_s = 1\nchannel = [\"red\", \"blue\"]\nsetting = \"current_ma\"\nvalue = 3", TestName = "A channel that is none")]
    [TestCase("sensor", "[heart]\nrate_bpm = 60", TestName = "A body in a sensor")]
    [TestCase("study", "[[vary]]\nkey = \"heart.rate_bpm\"\nvalues = [60]", TestName = "A study without its section")]
    [TestCase("study", "[study]\ntitle = \"a\"", TestName = "A study without a scenario")]
    [TestCase("study", "[study]\nscenario = \"a.toml\"\nseeds = [1, 1]", TestName = "A seed that stands twice")]
    [TestCase("study", "[study]\nscenario = \"a.toml\"\n[[detector]]\nclosed_loop = \"yes\"", TestName = "A word for a flag")]
    [TestCase("study", "[study]\nscenario = \"a.toml\"\n[[detector]]\ncommand = []", TestName = "A command without words")]
    [TestCase("study", "[study]\nscenario = \"a.toml\"\n[[detector]]\nconstants = { a = \"b\" }", TestName = "Text for a constant")]
    [TestCase("plan", "[set]\ntitle = \"a\"\n[[case]]\nname = \"b\"", TestName = "A case without a scenario")]
    [TestCase("plan", "[set]\ntitle = \"a\"\n[[case.header]]\nname = \"b\"\nchannels = [\"ecg\"]", TestName = "A header without a case")]
    [TestCase("calibration", "[[cuff]]\narrival_ms = 250\nsystolic_mmhg = 120", TestName = "A cuff of one pressure")]
    [TestCase("calibration", "[oxygen]\nratio = [0.5]\nsaturation_percent = [97]", TestName = "A table of one pair")]
    public void Schema_Mistake_RefusesAsTheReaderDoes(string kind, string toml)
    {
        Assert.That(Mistakes(kind, toml), Is.Not.Empty);
        Assert.That(() => Read(kind, toml), Throws.InstanceOf<ScenarioException>());
    }

    // Both ends of each range, and just beyond them.
    [TestCaseSource(nameof(NumberKeys))]
    public void Schema_RangeOfAKey_IsTheKeys(string name)
    {
        var key = (NumberKey)AllKeys.Find(name)!;
        double beyond = Math.Max(1, Math.Abs(key.Maximum)) * 1e-6 + (key.IsWhole ? 1 : 0);

        Assert.That(Takes(key.Minimum), Is.True);
        Assert.That(Takes(key.Maximum), Is.True);
        Assert.That(Takes(key.Minimum - beyond), Is.False);
        Assert.That(Takes(key.Maximum + beyond), Is.False);

        bool Takes(double value) => Mistakes("scenario", FormattableString.Invariant($"[{key.Section}]\n{key.Key} = {(key.IsWhole ? $"{(decimal)value:F0}" : $"{(decimal)value:F12}")}")).Count == 0;
    }

    [Test]
    public void Schema_EveryKey_HasAPlaceAndSaysWhatItMeans()
    {
        foreach ((FileSchema schema, IEnumerable<KeyDefinition> keys) in new (FileSchema, IEnumerable<KeyDefinition>)[]
        {
            (FileSchemas.Scenario, AllKeys.List()), (FileSchemas.Sensor, SensorKeys.OfAFile), (FileSchemas.Study, StudyKeys.All),
            (FileSchemas.Plan, PlanKeys.All), (FileSchemas.Calibration, CalibrationKeys.All),
        })
        {
            using JsonDocument json = JsonDocument.Parse(Text(schema));
            foreach (KeyDefinition key in keys)
            {
                JsonElement at = json.RootElement;
                foreach (string word in key.Name.Split('.'))
                {
                    at = (at.TryGetProperty("items", out JsonElement item) ? item : at).GetProperty("properties").GetProperty(word);
                }

                Assert.That(at.GetProperty("description").GetString(), Does.StartWith(key.Meaning).And.EndWith(key.Source), key.Name);
            }
        }
    }

    [Test]
    public void Schema_RequiredKey_HasNoDefault()
    {
        using JsonDocument json = JsonDocument.Parse(Text(FileSchemas.Calibration));
        JsonElement cuff = json.RootElement.GetProperty("properties").GetProperty("cuff").GetProperty("items");
        string[] required = [.. cuff.GetProperty("required").EnumerateArray().Select(r => r.GetString()!)];

        Assert.That(
            cuff.GetProperty("properties").EnumerateObject().Where(k => k.Value.TryGetProperty("default", out _)).Select(k => k.Name),
            Is.EqualTo(new[] { "spread_ms", "age_days" }));
        Assert.That(required, Is.EqualTo(new[] { "arrival_ms", "systolic_mmhg", "diastolic_mmhg" }));
    }

    // A name with dots is a table in a table: the reader puts the words together again.
    [TestCase("constants = { a = 1, b.c = 2, d.e.f = 3 }")]
    [TestCase("command = [\"x\"]\nadapter = \"process\"\n[detector.constants]\na = 1\nb.c = 2")]
    public void Schema_ConstantsOfADetector_Takes(string detector)
    {
        string toml = "[study]\nscenario = \"a.toml\"\n[[detector]]\n" + detector;

        Assert.That(Mistakes("study", toml), Is.Empty);
        Assert.That(() => Read("study", toml), Throws.Nothing);
    }

    [Test]
    public void Schema_Fields_AreThoseOfTheTimeLine()
    {
        using JsonDocument json = JsonDocument.Parse(Text(FileSchemas.Scenario));
        foreach (TimeLineTable table in TimeLineTables.All)
        {
            JsonElement fields = json.RootElement.GetProperty("properties").GetProperty(table.Name).GetProperty("items").GetProperty("properties");
            Assert.That(fields.EnumerateObject().Select(f => f.Name), Is.EqualTo(table.Fields.Select(f => f.Name)));
        }
    }

    [TestCase(16, true)]
    [TestCase(24, false)]
    [TestCase(32, true)]
    public void Schema_WidthOfAHeader_IsTheReaders(int bits, bool isTaken)
    {
        string toml = "[set]\ntitle = \"a\"\n[[case]]\nname = \"b\"\nscenario = \"missing.toml\"\nlevel = \"pass\"\nrequirements = [\"c\"]\n"
            + $"[[case.header]]\nchannels = [\"ecg\"]\nbits = {bits}";

        Assert.That(Mistakes("plan", toml), isTaken ? Is.Empty : Is.Not.Empty);

        // The reader misses the scenario in all three, and names the width where it is wrong.
        string said = Assert.Catch<ScenarioException>(() => Read("plan", toml))!.Message;
        Assert.That(said.Contains("must be 16 or 32", StringComparison.Ordinal), Is.EqualTo(!isTaken), said);
    }

    private static string KindOf(string path)
    {
        string[] folders = path.Split('/');
        return folders[^1] == "plan.toml" ? "plan"
            : folders.Contains("calibrations") ? "calibration"
            : folders.Contains("sensors") ? "sensor"
            : folders.Contains("studies") ? "study"
            : "scenario";
    }

    private static string Text(FileSchema schema)
    {
        using var stream = new MemoryStream();
        schema.Write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static List<string> Mistakes(string kind, string toml)
    {
        EvaluationResults result = s_schemas[kind].Evaluate(TomlJson.Of(toml), new EvaluationOptions { OutputFormat = OutputFormat.List });
        return result.IsValid ? [] : [.. (result.Details ?? []).Where(d => d.Errors is not null).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}")).DefaultIfEmpty("refused")];
    }

    private static void Read(string kind, string toml)
    {
        string path = Path.Combine(TestContext.CurrentContext.WorkDirectory, $"{kind}-{Guid.NewGuid():N}.toml");
        File.WriteAllText(path, toml);
        try
        {
            switch (kind)
            {
                case "scenario":
                    ScenarioReader.ReadFile(path);
                    break;
                case "sensor":
                    SensorReader.ReadFile(path);
                    break;
                case "study":
                    StudyFileReader.ReadFile(path);
                    break;
                case "plan":
                    VectorPlanReader.ReadFile(path);
                    break;
                default:
                    CalibrationReader.ReadFile(path);
                    break;
            }
        }
        finally
        {
            File.Delete(path);
        }
    }
}
