// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Reports.StudyReports;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Agreement;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;
using SensorSim.Studies.WorstCases;

namespace SensorSim.Cli.Output;

/// <summary>Gathers what the page about a study shows, and writes it.</summary>
/// <param name="results">What the study came to.</param>
/// <param name="factories">One for each detector: some runs are made again, to show their signals and readings.</param>
/// <param name="cancellation">Ends it.</param>
internal sealed class StudyPages(SweepResults results, IReadOnlyList<IDetectorFactory> factories, CancellationToken cancellation)
{
    private const int MostWorstCases = 3;
    private const int RunsForAgreement = 40;

    private IReadOnlyList<WorstCase> _worst = [];
    private IReadOnlyList<Readings> _agreement = [];
    private bool _isOfGood;

    /// <summary>Makes the worst runs again.</summary>
    public void FindWorstCases() => _worst = WorstCaseFinder.Find(results.Rows, factories, MostWorstCases, cancellation);

    /// <summary>Makes some runs again, to hold their readings against truth.</summary>
    public void FindAgreement()
    {
        // Readings of a detector that has broken down describe no condition that anybody would use it in.
        var failing = results.Figures.Where(f => !f.IsMet).Select(f => (f.Detector, f.Point)).ToHashSet();
        bool hasGood = Enumerable.Range(0, results.Plan.Detectors.Count).All(d => results.Figures.Any(f => f.Detector == d && !failing.Contains((d, f.Point))));
        _agreement = SideBySide.Each(
            AgreementSample.Collect(results.Rows, factories, RunsForAgreement, (detector, point) => !hasGood || !failing.Contains((detector, point)), cancellation),
            a => new Readings(a.Detector, a.Pairs, a.RunCount, AgreementFigures.Of(a.Pairs, AtCalibration(results.Plan.Detectors[a.Detector].Calibration, a.Pairs.Kind))),
            cancellation);
        _isOfGood = hasGood && failing.Count > 0;
    }

    /// <summary>Writes <c>agreement.json</c>, and <c>report.html</c> with its figures and tables, of what was found.</summary>
    /// <param name="pathOf">Where a file of a name goes.</param>
    public void Write(Func<string, string> pathOf)
    {
        WriteAgreement(pathOf("agreement.json"));
        var options = new StudyReportOptions
        {
            Identity = results.Identity.OfAll,
            DetectorIdentities = results.Identity.Detectors,
            Agreement = [.. _agreement.Select(Data)],
            Notes = [.. NotesOf(results)],
            WorstCases = _worst,
        };
        StudyReport.Write(pathOf, results.Rows, results.FailurePoints, options);
    }

    private AgreementData Data(Readings readings)
    {
        (int detector, ReadingPairs pairs, int runCount, AgreementFigures figures) = readings;
        long all = results.Rows.CountsOf(detector).Runs;
        string some = runCount == all ? Plural.Of(all, "run") : FormattableString.Invariant($"{runCount} of {Plural.Of(all, "run")}");
        return new AgreementData
        {
            Title = $"{pairs.Channel?.Text().Replace('_', ' ')}: {Quantity(pairs.Kind)}, {results.Plan.Detectors[detector].Label}",
            Runs = $"{some}{(_isOfGood ? ", points that meet the requirements" : "")}",
            Unit = pairs.Kind.Info().ValueUnit,
            Pairs = [.. pairs.Points.Select(p => new AgreementPair(p.Subject, p.Truth, p.Estimate))],
            Limits = figures.Repeated is not { } repeated ? null : new AgreementLimits
            {
                Bias = repeated.Bias,
                BiasInterval = figures.BiasInterval,
                Low = repeated.LowerLimit,
                LowInterval = figures.LowerLimitInterval,
                High = repeated.UpperLimit,
                HighInterval = figures.UpperLimitInterval,
                Definition = $"Bias is the mean of reading less truth; the limits of agreement come from the variances between and within {(results.Plan.SubjectSeeds.Count == 0 ? "seeds" : "persons")}, readings of one being repeated measurements (Bland and Altman, 1999); intervals by resampling whole {(results.Plan.SubjectSeeds.Count == 0 ? "seeds" : "persons")}. {AgreementText.Of(figures)}".TrimEnd(),
            },
        };
    }

    // The cuff value that an estimate which never moves would repeat.
    private static Func<int, double?>? AtCalibration(DetectorCalibration? calibration, MarkKind kind) =>
        calibration?.Pressure is not PressureCurve curve ? null
        : kind == MarkKind.SystolicMmhg ? _ => curve.Cuffs[^1].SystolicMmhg
        : kind == MarkKind.DiastolicMmhg ? _ => curve.Cuffs[^1].DiastolicMmhg
        : null;

    // Everything that was computed of them, for programs.
    private void WriteAgreement(string path)
    {
        using FileStream stream = File.Create(path);
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", 1);
            json.WriteString("identity", results.Identity.OfAll);
            json.WriteStartArray("readings");
            foreach ((int detector, ReadingPairs pairs, int runCount, AgreementFigures figures) in _agreement)
            {
                json.WriteStartObject();
                json.WriteString("detector", results.Plan.Detectors[detector].Label);
                json.WriteString("channel", pairs.Channel?.Text());
                json.WriteNumber("run_count", runCount);
                AgreementJson.WriteProperties(json, [figures]);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    // The unit stands on the axes.
    private static string Quantity(MarkKind kind)
    {
        string text = kind.Text();
        string last = text[(text.LastIndexOf('_') + 1)..];
        return (last is "bpm" or "ms" or "percent" or "mmhg" ? text[..^(last.Length + 1)] : text).Replace('_', ' ');
    }

    private static IEnumerable<string> NotesOf(SweepResults results)
    {
        if (results.Tuned is { } tuned)
        {
            yield return FormattableString.Invariant($"Constants of the detectors were chosen on {Plural.Of(tuned.Settings.Seeds.Count, "seed")} of their own, before the runs shown here.");
        }

        if (results.Plan.FailurePoint.IsAdaptive)
        {
            yield return "The study chose its runs itself, where they tell most about the failure points; levels have unequal numbers of runs.";
        }

        foreach (string notice in results.Notices)
        {
            yield return $"Notice: {notice}.";
        }
    }

    /// <summary>Readings of one kind of a detector, and what they came to.</summary>
    private sealed record Readings(int Detector, ReadingPairs Pairs, int RunCount, AgreementFigures Figures);
}
