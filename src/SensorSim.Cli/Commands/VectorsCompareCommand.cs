// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;
using SensorSim.Files.Output;
using SensorSim.Studies.Vectors.Results;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Cli.Commands;

/// <summary><c>vectors compare</c>: holds the answers of a device, a detector or another implementation against a set.</summary>
internal static class VectorsCompareCommand
{
    private const string Acceptance = "acceptance";
    private const string Expected = "expected";

    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var set = new Argument<string>("DIR") { Description = "Folder of a vector set" };
        var answers = new Option<string?>("--answers")
        {
            Description = "Answers: a CSV file with a column case, or a folder with CASE.csv or CASE/detections.csv; without them, and without a detector of your own, the library is run",
            HelpName = "FILE",
        };
        DetectorOptions own = DetectorOptions.Create();
        LineOptions line = LineOptions.Create();
        var against = new Option<string>("--against")
        {
            Description = "What the answers are held against: the windows of acceptance, or the expected answers, column by column to the last digit",
            DefaultValueFactory = _ => Acceptance,
            HelpName = "WHAT",
        };
        against.AcceptOnlyFromAmong(Acceptance, Expected);
        RunRecordOptions record = RunRecordOptions.Create();
        Option<string?> outFolder = CommonOptions.Out("Folder for results.json, results.xml (JUnit), results.trx, traceability.md and, when one is given, run-record.json");
        Option<bool> json = CommonOptions.Json();
        var command = new Command("compare", "Hold answers against a set: each requirement of each case.")
        {
            set, answers, own.Detector, own.DetectorCommand, own.DetectorClass, own.InProcess, line.Link, line.Baud, line.RtsCts, against,
            record.Device, record.Firmware, record.Operator, record.Date, outFolder, json,
        };
        command.SetAction(parsed =>
        {
            RunRecord who = record.Read(parsed, parsed.GetValue(outFolder) is not null);
            VectorsPlaces.MustLieOutside(parsed.GetRequiredValue(set), parsed.GetValue(outFolder));
            DetectorChoice? choice = own.Read(parsed, hasCalibration: false);
            LineChoice? board = line.Read(parsed);
            VectorSet opened = VectorSet.Open(parsed.GetRequiredValue(set));
            var source = VectorAnswers.Of(opened, parsed.GetValue(answers), choice, board, cancellation);
            return Compare(terminal, opened, source, parsed.GetValue(against) == Expected, who, parsed.GetValue(outFolder), parsed.GetValue(json));
        });
        return command;
    }

    private static int Compare(Terminal terminal, VectorSet set, VectorAnswers source, bool isAgainstExpected, RunRecord record, string? outPath, bool isJson)
    {
        using OutputFolder? folder = outPath is null ? null : OutputPlace.Open(outPath);
        SetComparison comparison = SetComparer.Compare(set, source.Name, source.To, isAgainstExpected, source.IsLibrary);
        comparison = comparison with { Answers = source.Name };
        if (folder is not null)
        {
            SetComparisonFiles.Write(folder, comparison, record);
            folder.Commit();
        }

        if (isJson)
        {
            SetComparisonJson.Write(terminal.OutStream, comparison);
        }
        else
        {
            SetComparisonTable.Print(terminal, comparison);
        }

        SetComparisonTable.SayFaults(terminal, comparison);
        if (outPath is not null)
        {
            terminal.Say($"files written to {outPath}");
        }

        return comparison.IsMet ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
