// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Cli.Output;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary>What came of a replay: scores where there is truth, else the number of answers.</summary>
/// <param name="Input">What was sent.</param>
/// <param name="Outcome">What came out.</param>
/// <param name="Link">How the link went.</param>
internal sealed record ReplayResult(ReplayInput Input, RunOutcome Outcome, LinkSummary Link)
{
    /// <summary>Length of what was sent [s].</summary>
    public required double SentS { get; init; }

    /// <summary>What came of the demand to be bit-exact; null when it was not made.</summary>
    public ExactSummary? Exact { get; init; }

    /// <summary>Marks by channel and kind.</summary>
    public required IReadOnlyList<(string Channel, string Kind, long Count)> Counts { get; init; }

    /// <summary>The loop that was closed; null when it was open.</summary>
    public ControlLoop? Loop { get; init; }

    /// <summary>What the board was told of sensor and wearer; null when nothing.</summary>
    public CalibrationFile? Calibration { get; init; }

    /// <summary>What the user was told before the board answered, a sentence each.</summary>
    public IReadOnlyList<string> Notices { get; init; } = [];

    /// <summary>Whether the board answered and everything that is demanded is met.</summary>
    public bool IsMet => Summary is RunSummary scored ? scored.IsMet : Outcome.Verdict == Verdict.Answered && (Exact is null || Exact.IsMet);

    /// <summary>Name of the JSON document among the files.</summary>
    public string JsonName => Outcome.Report is null ? "counts.json" : "scores.json";

    private RunSummary? Summary => Outcome.Report is null ? null : (Input.Scenario is not null
        ? RunSummary.FromScenario(Input.Scenario, Outcome)
        : new RunSummary
        {
            Title = Input.Title,
            Input = Input.Path,
            DurationS = SentS,
            Detector = Outcome.DetectorName,
            Verdict = Outcome.Verdict,
            VerdictReason = Outcome.VerdictReason,
            Report = Outcome.Report,
            Requirements = [],
        }) with
    {
        DurationS = SentS,
        Loop = Loop,
        Calibration = Calibration,
        Notices = Notices,
        Link = Link,
        Exact = Exact,
    };

    /// <summary>Prints it.</summary>
    public void Print(Terminal terminal, bool isJson)
    {
        if (isJson)
        {
            WriteJson(terminal.OutStream);
            return;
        }

        if (Summary is RunSummary scored)
        {
            SummaryTable.Print(terminal, scored);
        }
        else
        {
            PrintCounts(terminal);
        }

        LinkTable.Print(terminal.Out, Link, Exact);
    }

    /// <summary>Writes it as one document.</summary>
    public void WriteJson(Stream stream)
    {
        if (Summary is RunSummary scored)
        {
            SummaryJson.Write(stream, scored);
            return;
        }

        CountsJson.Write(
            stream,
            [("recording", Input.Path), ("detector", Outcome.DetectorName), ("verdict", SummaryJson.Word(Outcome.Verdict)), ("verdict_reason", Outcome.VerdictReason)],
            [("duration_s", SentS), ("sample_count", Outcome.SampleCount), ("mark_count", Outcome.MarkCount)],
            Counts,
            json =>
            {
                Exact?.WriteProperty(json);
                LinkJson.WriteProperty(json, Link);
            });
    }

    private void PrintCounts(Terminal terminal)
    {
        terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Input.Path}: {SentS:0.###} s, detector {Outcome.DetectorName}; without truth nothing is scored"));
        foreach ((string channel, string kind, long count) in Counts)
        {
            terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{channel,-10} {kind,-28} {count,8}"));
        }

        if (Outcome.Verdict != Verdict.Answered)
        {
            terminal.Out.WriteLine($"{SummaryJson.Word(Outcome.Verdict)}: {Outcome.VerdictReason}");
        }
    }
}
