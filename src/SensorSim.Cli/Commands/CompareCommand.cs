// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Globalization;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Reports.Comparisons;
using SensorSim.Studies.Comparisons;

namespace SensorSim.Cli.Commands;

/// <summary><c>compare</c>: two finished sweeps of the same streams, or two detectors of one, run by run; a gate for build servers.</summary>
internal static class CompareCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string[]> folders = new("DIR")
        {
            Description = "Folder of a finished sweep, or two of the same streams: the first and the second",
            Arity = new ArgumentArity(1, 2),
        };
        Option<string?> outFolder = CommonOptions.Out("Folder for compare.html, compare.json, differences.csv and, with --baseline, compare.xml");
        Option<string?> first = Label("--first", "Detector of the first folder, when it has several");
        Option<string?> second = Label("--second", "Detector of the second folder, or the second one of a single folder");
        Option<string?> baseline = new("--baseline")
        {
            Description = "Folder or summary.json of an earlier sweep; exit code 1 when DIR got worse",
            HelpName = "PATH",
        };
        Option<string[]> margins = new("--margin")
        {
            Description = "How much worse may pass, by requirement (unit of its figure) or varied key (its unit), for example r_peak_sensitivity_min=0.002; can be given several times",
            HelpName = "KEY=NUMBER",
        };
        Option<bool> json = CommonOptions.Json();
        var command = new Command("compare", "Compare two detectors, or two versions of one, on the same streams.") { folders, outFolder, first, second, baseline, margins, json };
        command.SetAction(parsed => Compare(
            terminal,
            parsed.GetRequiredValue(folders),
            parsed.GetValue(outFolder),
            (parsed.GetValue(first), parsed.GetValue(second)),
            parsed.GetValue(baseline),
            parsed.GetValue(margins) ?? [],
            parsed.GetValue(json)));
        return command;
    }

    private static Option<string?> Label(string name, string what) => new(name) { Description = what, HelpName = "LABEL" };

    private static int Compare(
        Terminal terminal, string[] folders, string? outPath, (string? First, string? Second) labels, string? baseline, string[] margins, bool isJson)
    {
        if (baseline is not null && folders.Length == 2)
        {
            throw new UsageException("--baseline takes the place of the first folder; give one folder beside it");
        }

        if (baseline is null && margins.Length > 0)
        {
            throw new UsageException("--margin needs --baseline: without it nothing is judged");
        }

        Dictionary<string, double> allowed = Margins(margins);
        FinishedSweep first = FinishedSweep.Read(baseline ?? folders[0]);
        FinishedSweep second = baseline is null && folders.Length == 1 ? first : FinishedSweep.Read(folders[^1]);
        Comparison comparison = Comparison.Of(ComparedPair.Of(first, labels.First, second, labels.Second));
        Notices.Tell(terminal, comparison.Pair.Notices);
        if (allowed.Keys.FirstOrDefault(k => !Gate.MarginKeys(comparison).Contains(k, StringComparer.Ordinal)) is string unknown)
        {
            throw new UsageException($"--margin {unknown}: nothing of that name is judged; what is: {string.Join(", ", Gate.MarginKeys(comparison))}");
        }

        Gate? gate = baseline is null ? null : new Gate(comparison, allowed);
        if (outPath is not null)
        {
            using OutputFolder folder = OutputPlace.Open(outPath);
            ComparisonFiles.Write(folder, comparison, gate);
            ComparisonReport.Write(folder.PathOf, comparison, gate);
            folder.Commit();
            terminal.Say($"files written to {outPath}");
        }

        if (isJson)
        {
            ComparisonJson.Write(terminal.OutStream, comparison, gate);
        }
        else
        {
            ComparisonTable.Print(terminal.Out, comparison, gate);
        }

        return gate is { Worse.Count: > 0 } ? ExitCodes.NotMet : ExitCodes.Done;
    }

    private static Dictionary<string, double> Margins(string[] texts)
    {
        var margins = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (string text in texts)
        {
            int at = text.IndexOf('=', StringComparison.Ordinal);
            if (at < 1 || !double.TryParse(text[(at + 1)..], NumberStyles.Float, CultureInfo.InvariantCulture, out double margin) || !(margin >= 0) || double.IsInfinity(margin))
            {
                throw new UsageException($"--margin {text} must be KEY=NUMBER with a number of at least 0, for example r_peak_sensitivity_min=0.002");
            }

            if (!margins.TryAdd(text[..at], margin))
            {
                throw new UsageException($"--margin {text[..at]} is given twice");
            }
        }

        return margins;
    }
}
