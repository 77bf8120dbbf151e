// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using SensorSim.Scenarios;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Results;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Results;

/// <summary>The JSON document: what the project's file definitions promise.</summary>
[TestFixture]
public sealed partial class SummaryJsonTests
{
    private const string Required = "[requirements]\nr_peak_sensitivity_min = 1\narrival_time_sd_ms_max = 4\n";

    // The columns of the project's definition of the document.
    private static readonly string[] s_scoreKeys =
    [
        "channel", "kind", "reference_count", "matched", "missed", "extra", "sensitivity", "sensitivity_low", "sensitivity_high",
        "positive_predictivity", "positive_predictivity_low", "positive_predictivity_high", "f1", "timing_bias_ms", "timing_sd_ms", "timing_p95_ms",
    ];

    private static readonly string[] s_readingKeys = ["kind", "count", "bias", "sd", "rms", "p95_abs", "unit", "wrong", "first_reading_s"];

    [Test]
    public void Write_Run_HoldsEveryDefinedKeyWithItsFigure()
    {
        RunSummary summary = Summary(s => new KnowingDetector(s) { ErrorMs = id => id % 5 });
        using JsonDocument json = Parse(summary);
        JsonElement root = json.RootElement;

        Assert.That(root.EnumerateObject().First().Name, Is.EqualTo("schema_version"));
        Assert.That(root.GetProperty("schema_version").GetInt32(), Is.EqualTo(1));
        Assert.That(root.GetProperty("scenario").GetString(), Is.EqualTo("test.toml"));
        Assert.That(root.GetProperty("seed").GetInt64(), Is.EqualTo(1));
        Assert.That(root.GetProperty("generator_version").GetInt32(), Is.EqualTo(Scenario.GeneratorVersion));
        Assert.That(root.GetProperty("duration_s").GetDouble(), Is.EqualTo(30));
        Assert.That(root.GetProperty("requirements").GetArrayLength(), Is.EqualTo(2));
        foreach (JsonElement row in root.GetProperty("scores").EnumerateArray())
        {
            Assert.That(s_scoreKeys.Where(k => !row.TryGetProperty(k, out _)), Is.Empty);
        }

        foreach (JsonElement row in root.GetProperty("readings").EnumerateArray())
        {
            Assert.That(s_readingKeys.Where(k => !row.TryGetProperty(k, out _)), Is.Empty);
        }

        JsonElement first = root.GetProperty("scores")[0];
        Assert.That(first.GetProperty("timing_bias_ms").GetDouble(), Is.EqualTo(summary.Report.Scores[0].TimingBiasMs));
        Assert.That(first.GetProperty("sensitivity_low").GetDouble(), Is.EqualTo(summary.Report.Scores[0].SensitivityLow));
        Assert.That(first.GetProperty("matched").GetInt64(), Is.EqualTo(summary.Report.Scores[0].Matched).And.GreaterThan(10));
        Assert.That(root.GetProperty("readings").GetArrayLength(), Is.EqualTo(2));
        Assert.That(root.GetProperty("requirements_met").GetBoolean(), Is.True);
    }

    [Test]
    public void Write_Definitions_AreOfFiguresInTheDocument()
    {
        using JsonDocument json = Parse(Summary(s => new KnowingDetector(s)));
        HashSet<string> names = [.. json.RootElement.EnumerateObject().Where(p => p.Name != "definitions").SelectMany(p => Names(p.Value).Prepend(p.Name))];

        string[] defined = [.. json.RootElement.GetProperty("definitions").EnumerateObject().Select(p => p.Name)];

        Assert.That(defined, Has.Length.GreaterThan(15));
        Assert.That(defined.Where(d => !names.Contains(d)), Is.Empty);
    }

    // Atrial fibrillation throughout and no flag: found by nobody; every beat of the normal class.
    [Test]
    public void Write_Fibrillation_TellsRhythmAndClasses()
    {
        Scenario scenario = Runs.Read(30, "[heart]\nrhythm = \"atrial_fibrillation\"\n");
        using JsonDocument json = Parse(RunSummary.FromScenario(scenario, Runs.Run(scenario, new KnowingDetector(scenario))));
        JsonElement rhythm = json.RootElement.GetProperty("rhythm");
        Assert.That(rhythm.GetProperty("irregular_s").GetDouble(), Is.EqualTo(21).Within(2));
        Assert.That(rhythm.GetProperty("sensitivity").GetDouble(), Is.Zero);
        Assert.That(rhythm.GetProperty("specificity").ValueKind, Is.EqualTo(JsonValueKind.Null));
        JsonElement classes = json.RootElement.GetProperty("scores")[0].GetProperty("classes");
        Assert.That(classes.GetArrayLength(), Is.EqualTo(1));
        Assert.That(classes[0].GetProperty("class").GetString(), Is.EqualTo("normal"));
        Assert.That(classes[0].GetProperty("found").GetInt64(), Is.EqualTo(json.RootElement.GetProperty("scores")[0].GetProperty("matched").GetInt64()));
    }

    // White noise of 0.125 mV² at 1 mV of QRS is 0 dB; 12 of 125 Hz between 8 and 20 Hz: 10 log10(125/12) = 10.177 dB.
    [Test]
    public void Write_NoisyEcg_TellsItsRatios()
    {
        Scenario scenario = Runs.Read(30, "[ecg]\nq_mv = 0\ns_mv = 0\nr_mv = 1\n[ecg_noise]\nwhite_noise_snr_db = 0\n");
        using JsonDocument json = Parse(RunSummary.FromScenario(scenario, Runs.Run(scenario, new KnowingDetector(scenario))));
        JsonElement noise = json.RootElement.GetProperty("ecg_noise");
        Assert.That(noise.GetProperty("snr_db").GetDouble(), Is.Zero.Within(1e-9));
        Assert.That(noise.GetProperty("snr_8_to_20_hz_db").GetDouble(), Is.EqualTo(10.177).Within(1e-3));
        Assert.That(noise.GetProperty("rms_uv").GetDouble(), Is.EqualTo(353.5534).Within(1e-3));
        Assert.That(noise.GetProperty("sources")[0].GetProperty("source").GetString(), Is.EqualTo("white_noise"));
        using JsonDocument clean = Parse(Summary(s => new KnowingDetector(s)));
        Assert.That(clean.RootElement.GetProperty("ecg_noise").ValueKind, Is.EqualTo(JsonValueKind.Null));
    }

    [Test]
    public void Write_SilentDetector_HasNullWhereUndefined()
    {
        using JsonDocument json = Parse(Summary(_ => new TestDetector()));
        JsonElement row = json.RootElement.GetProperty("scores")[0];

        foreach (string name in new[] { "positive_predictivity", "positive_predictivity_low", "timing_bias_ms", "timing_sd_ms", "timing_p95_ms" })
        {
            Assert.That(row.GetProperty(name).ValueKind, Is.EqualTo(JsonValueKind.Null), name);
        }

        Assert.That(row.GetProperty("sensitivity").GetDouble(), Is.Zero);
        Assert.That(json.RootElement.GetProperty("verdict").GetString(), Is.EqualTo("silent"));
        Assert.That(json.RootElement.GetProperty("requirements_met").GetBoolean(), Is.False);
        Assert.That(json.RootElement.GetProperty("requirements")[1].GetProperty("actual").ValueKind, Is.EqualTo(JsonValueKind.Null));
    }

    [Test]
    public void Write_Keys_AreSnakeCase()
    {
        using JsonDocument json = Parse(Summary(s => new KnowingDetector(s)));

        Assert.That(Names(json.RootElement).Where(n => !Snake().IsMatch(n)), Is.Empty);
    }

    [TestCase("")]
    [TestCase("de-DE")]
    [TestCase("tr-TR")]
    public void Write_TwiceInAnyCulture_SameBytesWithLineFeeds(string culture)
    {
        byte[] expected = Bytes(Summary(s => new KnowingDetector(s) { ErrorMs = id => id % 3 }));
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo(culture);
            byte[] again = Bytes(Summary(s => new KnowingDetector(s) { ErrorMs = id => id % 3 }));

            Assert.That(again, Is.EqualTo(expected));
            Assert.That(again, Has.None.EqualTo((byte)'\r'));
            Assert.That((again[0], again[^1]), Is.EqualTo(((byte)'{', (byte)'\n')));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static RunSummary Summary(Func<Scenario, IDetector> detector)
    {
        Scenario scenario = Runs.Read(30, Required);
        return RunSummary.FromScenario(scenario, Runs.Run(scenario, detector(scenario)));
    }

    private static byte[] Bytes(RunSummary summary)
    {
        using var stream = new MemoryStream();
        SummaryJson.Write(stream, summary);
        return stream.ToArray();
    }

    private static JsonDocument Parse(RunSummary summary) => JsonDocument.Parse(Bytes(summary));

    private static IEnumerable<string> Names(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(p => Names(p.Value).Prepend(p.Name)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Names),
        _ => [],
    };

    [GeneratedRegex("^[a-z][a-z0-9]*(_[a-z0-9]+)*$")]
    private static partial Regex Snake();
}
