// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using System.Text.Json;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Identity;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Sweeps;

/// <summary>What a study is, in one number: the same on every machine, another as soon as any result could be another.</summary>
/// <remarks>
/// Two numbers: of the runs (everything that a row depends on) and of the whole (also what is made of the rows: title, labels, requirements,
/// failure points). Comments and the order of tables in the study file, its place and its name are in neither.
/// </remarks>
public sealed record StudyIdentity
{
    private StudyIdentity(string ofStreams, string ofRuns, string ofAll, IReadOnlyList<string> detectors)
    {
        OfStreams = ofStreams;
        OfRuns = ofRuns;
        OfAll = ofAll;
        Detectors = detectors;
    }

    /// <summary>
    /// Of the streams that the detectors meet, without detectors and version of the program: runs of two studies with the same one can be paired. SHA-256,
    /// 64 lower-case hexadecimal digits.
    /// </summary>
    public string OfStreams { get; }

    /// <summary>Of everything that fixes the rows: SHA-256, 64 lower-case hexadecimal digits.</summary>
    public string OfRuns { get; init; }

    /// <summary>Of everything that fixes the results: SHA-256, 64 lower-case hexadecimal digits.</summary>
    public string OfAll { get; }

    /// <summary>Name and version of each detector of the study, see <see cref="IDetectorFactory.Identity"/>.</summary>
    public IReadOnlyList<string> Detectors { get; }

    /// <summary>Version of this program.</summary>
    public static string ProgramVersion { get; } = typeof(StudyIdentity).Assembly.GetName().Version!.ToString(3);

    /// <summary>The identity of a study.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="factories">One for each detector of the study, in their order.</param>
    public static StudyIdentity Of(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(factories);
        string runs = Runs(plan, factories);
        string ofRuns = Sha256Sum.Of(runs);
        return new StudyIdentity(Sha256Sum.Of(Streams(plan)), ofRuns, Sha256Sum.Of(ofRuns + "\n" + Judged(plan)), [.. factories.Select(f => f.Identity)]);
    }

    private static string Runs(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories)
    {
        var text = new StringBuilder();
        Line(text, "program", ProgramVersion);
        Line(text, "rows", Text(RowBytes.Version));
        text.Append(Streams(plan));
        foreach ((DetectorChoice choice, IDetectorFactory factory) in plan.Detectors.Zip(factories))
        {
            Line(text, "detector", factory.Identity, choice.Control, Text(choice.IsLoopClosed ? choice.LatencyMs : 0), Text(choice.HangS), Calibration(choice));
            foreach ((string name, double value) in choice.Constants.OrderBy(c => c.Key, StringComparer.Ordinal))
            {
                Line(text, "constant", name, Text(value));
            }
        }

        return text.ToString();
    }

    private static string Streams(StudyPlan plan)
    {
        var text = new StringBuilder();
        Line(text, "generator", Text(Scenario.GeneratorVersion));
        Line(text, "scenario", Sha256Sum.Of(plan.Scenario.Text.ReplaceLineEndings("\n")));
        foreach (KeyValue own in plan.Scenario.Own)
        {
            Line(text, "own", own.Key.Name, own.Toml);
        }

        foreach (ReferencedFile file in plan.Scenario.ReferencedFiles)
        {
            Line(text, "file", file.Sha256);
        }

        Line(text, "person", plan.Scenario.Subject is null ? "" : Text(plan.Scenario.Subject.Seed));
        Line(text, "keys", [.. plan.Factors.Select(f => f.Key.Name)]);
        foreach (StudyPoint point in plan.Points)
        {
            Line(text, "point", [.. point.Values.Select(ValueText.Of)]);
        }

        Line(text, "seeds", [.. plan.Seeds.Select(s => Text(s))]);
        Line(text, "persons", [.. plan.SubjectSeeds.Select(s => Text(s))]);
        return text.ToString();
    }

    private static string Judged(StudyPlan plan)
    {
        var text = new StringBuilder();
        Line(text, "title", plan.Title);
        Line(text, "labels", [.. plan.Detectors.Select(d => d.Label)]);
        foreach (Factor factor in plan.Factors)
        {
            Line(text, "levels", [factor.IsInRatios ? "ratio" : "even", .. factor.Levels.Select(ValueText.Of)]);
        }

        foreach ((var definition, double limit) in plan.Requirements)
        {
            Line(text, "requirement", definition.Key.Name, Text(limit));
        }

        if (plan.Tuning is TuningSettings tuning)
        {
            Line(text, "tuning", [.. tuning.Seeds.Select(s => Text(s))]);
        }

        // A record of plain values: every one of them matters, and one that is added later matters at once.
        Line(text, "failure_point", JsonSerializer.Serialize(plan.FailurePoint));
        return text.ToString();
    }

    private static string Calibration(DetectorChoice choice) => choice.Calibration is null ? "" : Sha256Sum.Of(JsonSerializer.Serialize(choice.Calibration));

    private static void Line(StringBuilder text, string name, params string[] fields)
    {
        text.Append(name);
        foreach (string field in fields)
        {
            // A field may hold anything: its length keeps two fields from reading as one.
            text.Append(' ').Append(field.Length.ToString(CultureInfo.InvariantCulture)).Append(':').Append(field);
        }

        text.Append('\n');
    }

    private static string Text(IFormattable value) => ValueText.Of(value);

}
