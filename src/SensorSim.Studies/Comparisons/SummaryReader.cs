// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;
using SensorSim.Detectors.Choices;
using SensorSim.Files;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Comparisons;

/// <summary>Reads the summary of a sweep, see <see cref="Sweeps.SweepJson"/>.</summary>
public static class SummaryReader
{
    /// <summary>Reads it.</summary>
    /// <param name="document">The document.</param>
    /// <param name="file">Its file as the user named it, for messages.</param>
    /// <exception cref="InputFileException">It is no summary, or one of a version that does not tell what a comparison needs.</exception>
    public static SweepSummary Read(ReadOnlyMemory<byte> document, string file)
    {
        try
        {
            using JsonDocument read = JsonDocument.Parse(document);
            JsonElement root = read.RootElement;
            if (!root.TryGetProperty("identity_of_streams", out _))
            {
                throw new InputFileException(file, 0, 0, "identity_of_streams is missing, so nothing tells which streams were met; sweep the study again with this version.");
            }

            return new SweepSummary
            {
                Plan = PlanOf(root, file),
                IdentityOfAll = Text(root, "identity"),
                IdentityOfStreams = Text(root, "identity_of_streams"),
                ProgramVersion = Text(root, "program_version"),
                GeneratorVersion = root.GetProperty("generator_version").GetInt32(),
                Detectors = [.. root.GetProperty("detectors").EnumerateArray().Select(IdentityOf)],
                Tuned = TunedOf(root),
                Notices = root.TryGetProperty("notices", out JsonElement notices) ? [.. notices.EnumerateArray().Select(n => n.GetString() ?? "")] : [],
            };
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            throw new InputFileException(file, 0, 0, $"this is no summary of a sweep ({e.Message.TrimEnd('.')}).", e);
        }
    }

    private static StudyPlan PlanOf(JsonElement root, string file)
    {
        Factor[] factors = [.. root.GetProperty("varied").EnumerateArray().Select(FactorOf)];
        string scenario = string.Create(
            CultureInfo.InvariantCulture,
            $"[scenario]\ntitle = {JsonSerializer.Serialize(Text(root, "scenario"))}\nduration_s = {root.GetProperty("duration_s").GetDouble():R}\n");
        return new StudyPlan
        {
            Title = Text(root, "title"),
            File = file,
            Text = "",
            Scenario = ScenarioReader.ReadText(scenario, file),
            Factors = factors,
            Points = [.. root.GetProperty("points").EnumerateArray().Select((p, i) => new StudyPoint(i, [.. p.EnumerateArray().Select(Value)]))],
            Seeds = Seeds(root, "seeds"),
            SubjectSeeds = Seeds(root, "subject_seeds"),
            Detectors = [.. root.GetProperty("detectors").EnumerateArray().Select(d => new DetectorChoice { Label = Text(d, "label") })],
            Requirements = [.. root.GetProperty("required").EnumerateArray().Select(r => RequirementOf(r, file))],
            FailurePoint = SettingsOf(root.GetProperty("failure_point_definition")),
        };
    }

    private static (TuningSettings Settings, IReadOnlyList<TunedConstants> Chosen)? TunedOf(JsonElement root)
    {
        if (!root.TryGetProperty("tuning", out JsonElement tuning) || tuning.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        string[] labels = [.. root.GetProperty("detectors").EnumerateArray().Select(d => Text(d, "label"))];
        TunedConstants[] chosen =
        [
            .. tuning.GetProperty("chosen").EnumerateArray().Select(c => new TunedConstants(
                Array.IndexOf(labels, Text(c, "detector")),
                [.. c.EnumerateObject().Where(p => p.Name is not ("detector" or "figure")).Select(p => (p.Name, p.Value.GetDouble()))],
                c.GetProperty("figure") is { ValueKind: JsonValueKind.Number } figure ? figure.GetDouble() : null)),
        ];
        return (new TuningSettings(Seeds(tuning, "seeds")), chosen);
    }

    private static FailurePointSettings SettingsOf(JsonElement settings) => new()
    {
        PassFraction = settings.GetProperty("pass_fraction") is { ValueKind: JsonValueKind.Number } share ? share.GetDouble() : null,
        Shape = Text(settings, "curve") == "probit" ? CurveShape.Probit : CurveShape.Logistic,
        Resamples = settings.GetProperty("resamples").GetInt32(),
        IsAdaptive = settings.GetProperty("adaptive").GetBoolean(),
    };

    private static (RequirementDefinition Definition, double Limit) RequirementOf(JsonElement requirement, string file)
    {
        string key = Text(requirement, "requirement");
        RequirementDefinition definition = RequirementKeys.All.FirstOrDefault(r => r.Key.Key == key)
            ?? throw new InputFileException(file, 0, 0, $"the requirement {key} is none that this version knows; compare with the version that made the sweep.");
        return (definition, requirement.GetProperty("limit").GetDouble());
    }

    // Made from what stands in the summary and not looked up: keys of detectors are nowhere else.
    private static Factor FactorOf(JsonElement factor)
    {
        object[] levels = [.. factor.GetProperty("levels").EnumerateArray().Select(Value)];
        string name = Text(factor, "key");
        KeyDefinition key = levels.All(l => l is double)
            ? new NumberKey
            {
                Name = name,
                Unit = Text(factor, "unit"),
                Meaning = "Varied by the study.",
                Source = "The study.",
                Minimum = double.MinValue,
                Maximum = double.MaxValue,
                Default = 0,
                HasDefault = false,
            }
            : new ChoiceKey
            {
                Name = name,
                Unit = Text(factor, "unit"),
                Meaning = "Varied by the study.",
                Source = "The study.",
                Choices = [.. levels.OfType<string>()],
                Default = "",
                HasDefault = false,
            };
        return new Factor(key, levels) { IsInRatios = Text(factor, "spacing") == "ratio" };
    }

    private static string IdentityOf(JsonElement detector)
    {
        string[] constants = [.. detector.GetProperty("constants").EnumerateObject().Select(c => $"{c.Name} = {c.Value.GetRawText()}")];
        return Text(detector, "identity") + (constants.Length == 0 ? "" : $" with {string.Join(", ", constants)}");
    }

    private static object Value(JsonElement value) => value.ValueKind == JsonValueKind.Number ? value.GetDouble() : value.GetString() ?? throw new FormatException("a level is null");

    private static ulong[] Seeds(JsonElement root, string name) => [.. root.GetProperty(name).EnumerateArray().Select(s => s.GetUInt64())];

    private static string Text(JsonElement element, string name) => element.GetProperty(name).GetString() ?? throw new FormatException($"{name} is null");
}
