// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Scenarios.Reading;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary><c>score</c>: truth + marks → score.</summary>
internal static class ScoreCommand
{
    private const string AcquisitionName = "acquisition.csv";

    public static Command Create(Terminal terminal)
    {
        var truth = new Argument<string>("TRUTH") { Description = "truth.csv, a recording with its truth beside or in it, or a list of beats with columns sample or time_s, label, confidence" };
        var marks = new Argument<string>("MARKS") { Description = "detections.csv" };
        var acquisition = new Option<string?>("--acquisition") { Description = "acquisition.csv with delays and unusable stretches; default: the one beside TRUTH, if any", HelpName = "FILE" };
        var exclude = new Option<string?>("--exclude") { Description = "CSV file with begin_s,end_s,reason: stretches that are not scored", HelpName = "FILE" };
        var requirements = new Option<string?>("--requirements") { Description = "Scenario file whose [requirements] decide the exit code", HelpName = "FILE" };
        Option<long?> rateHz = NumberOption.Whole("--rate-hz", "List of beats: sampling rate that its samples count in [Hz]", 1, 1_000_000);
        Option<double?> duration = NumberOption.Real("--duration-s", "Length of the record [s]; default: as acquisition.csv says, or up to the last row of truth", 0.001, 1e9);
        Option<double?> leadIn = NumberOption.Real("--lead-in-s", "Lead-in that is not scored [s]; default: the larger of 8 s and the smaller of 300 s and a tenth of the record", 0, 1e9);
        Option<double?> window = NumberOption.Real("--window-ms", "Match window on either side [ms]; 150 unless given", 1, 10000);
        Option<string?> outFolder = CommonOptions.Out("Folder for scores.json");
        Option<bool> json = CommonOptions.Json();
        var command = new Command("score", "Score marks against truth.")
        {
            truth, marks, acquisition, exclude, requirements, rateHz, duration, leadIn, window, outFolder, json,
        };
        command.SetAction(parsed =>
        {
            string truthPath = parsed.GetRequiredValue(truth);
            var scoring = new FileScoring
            {
                TruthPath = truthPath,
                MarksPath = parsed.GetRequiredValue(marks),
                AcquisitionPath = parsed.GetValue(acquisition) ?? Beside(terminal, truthPath),
                ExcludedPath = parsed.GetValue(exclude),
                RateHz = (int?)parsed.GetValue(rateHz),
                DurationS = parsed.GetValue(duration),
                LeadInS = parsed.GetValue(leadIn),
                WindowMs = parsed.GetValue(window) ?? 150,
                Requirements = parsed.GetValue(requirements) is string path ? ScenarioReader.ReadFile(path).Requirements : [],
            };
            return Score(terminal, scoring.Score(), parsed.GetValue(outFolder), parsed.GetValue(json));
        });
        return command;
    }

    private static string? Beside(Terminal terminal, string truthPath)
    {
        string path = Path.Combine(RecordingInput.FolderOf(truthPath), AcquisitionName);
        if (!File.Exists(path))
        {
            if (TruthFile.IsEdf(truthPath))
            {
                terminal.Say($"delays, clocks and unusable stretches as far as they stand in {truthPath}");
            }

            return null;
        }

        terminal.Say($"delays and unusable stretches from {path}");
        return path;
    }

    private static int Score(Terminal terminal, RunSummary summary, string? outPath, bool isJson)
    {
        if (outPath is not null)
        {
            using OutputFolder folder = OutputPlace.Open(outPath);
            using (Stream scores = folder.CreateFile("scores.json"))
            {
                SummaryJson.Write(scores, summary);
            }

            folder.Commit();
            terminal.Say($"scores.json written to {outPath}");
        }

        if (isJson)
        {
            SummaryJson.Write(terminal.OutStream, summary);
        }
        else
        {
            SummaryTable.Print(terminal, summary);
        }

        return summary.IsMet ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
