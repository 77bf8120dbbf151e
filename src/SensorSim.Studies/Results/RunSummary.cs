// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Acquisition;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scoring.Report;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Results;

/// <summary>Everything that the table and the JSON document of a scored run show.</summary>
public sealed record RunSummary
{
    /// <summary>What was run: title of the scenario or name of the recording.</summary>
    public required string Title { get; init; }

    /// <summary>Path of the scenario, recording or truth as the user gave it.</summary>
    public required string Input { get; init; }

    /// <summary>Seed; null when the input is a recording.</summary>
    public ulong? Seed { get; init; }

    /// <summary>Version of the generator; null when the input is a recording.</summary>
    public int? GeneratorVersion { get; init; }

    /// <summary>The person that was drawn; null when nobody was, or the input is a recording.</summary>
    public DrawnSubject? Subject { get; init; }

    /// <summary>Files that the scenario names.</summary>
    public IReadOnlyList<ReferencedFile> ReferencedFiles { get; init; } = [];

    /// <summary>Title of the sensor; empty when the scenario names none, or the input is a recording.</summary>
    public string SensorTitle { get; init; } = "";

    /// <summary>Number of activities of the scenario's time line.</summary>
    public int ActivityCount { get; init; }

    /// <summary>Number of changes of the scenario's time line.</summary>
    public int ChangeCount { get; init; }

    /// <summary>Changes in the schedule of settings, a change of several channels counted for each.</summary>
    public int SettingCount { get; init; }

    /// <summary>What the detector was told of sensor and wearer; null when nothing.</summary>
    public CalibrationFile? Calibration { get; init; }

    /// <summary>Why a calibrated detector gave no pressure at all; null when it did, or was not calibrated for it.</summary>
    public string? NoPressure { get; init; }

    /// <summary>What the user was told of input that hardly is what was meant, a sentence each without a full stop.</summary>
    public IReadOnlyList<string> Notices { get; init; } = [];

    /// <summary>The loop that was closed, with its counts; null when it was open.</summary>
    public ControlLoop? Loop { get; init; }

    /// <summary>How the link to the detector went; null when it ran on this machine.</summary>
    public LinkSummary? Link { get; init; }

    /// <summary>What came of the demand to give the library's marks; null when it was not made.</summary>
    public ExactSummary? Exact { get; init; }

    /// <summary>Noise of the ECG at the start; null when it is clean then, or the input is a recording.</summary>
    public EcgNoiseFigures? EcgNoise { get; init; }

    /// <summary>Noise of the ECG where it is strongest; null when it is never stronger than at the start, or the input is a recording.</summary>
    public EcgNoiseFigures? EcgNoiseWorst { get; init; }

    /// <summary>Length [s].</summary>
    public required double DurationS { get; init; }

    /// <summary>Name and version of the detector; empty when the marks come from a file.</summary>
    public string Detector { get; init; } = "";

    /// <summary>How the detector behaved.</summary>
    public Verdict Verdict { get; init; }

    /// <summary>One sentence on the verdict; empty when it answered.</summary>
    public string VerdictReason { get; init; } = "";

    /// <summary>The scores.</summary>
    public required ScoreReport Report { get; init; }

    /// <summary>The requirements, each on each row it speaks of.</summary>
    public required IReadOnlyList<RequirementResult> Requirements { get; init; }

    /// <summary>Whether the detector answered and every requirement is met, that of being bit-exact too.</summary>
    public bool IsMet => Verdict == Verdict.Answered && Requirements.All(r => r.IsMet) && (Exact is null || Exact.IsMet);

    /// <summary>Summary of a run of a scenario.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="outcome">What came out; scored.</param>
    public static RunSummary FromScenario(Scenario scenario, RunOutcome outcome)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentNullException.ThrowIfNull(outcome);
        ScoreReport report = outcome.Report ?? throw new ArgumentException("The run was not scored.", nameof(outcome));
        return new RunSummary
        {
            Title = scenario.Title,
            Input = scenario.File,
            Seed = scenario.Seed,
            GeneratorVersion = Scenario.GeneratorVersion,
            Subject = scenario.Subject,
            ReferencedFiles = scenario.ReferencedFiles,
            SensorTitle = scenario.SensorTitle,
            ActivityCount = scenario.ActivityCount,
            ChangeCount = scenario.ChangeCount,
            SettingCount = scenario.Settings.Count,
            EcgNoise = EcgNoiseFigures.At(scenario.Values, 0),
            EcgNoiseWorst = EcgNoiseFigures.Worst(scenario.Values, scenario.DurationS),
            DurationS = scenario.DurationS,
            Detector = outcome.DetectorName,
            Verdict = outcome.Verdict,
            VerdictReason = outcome.VerdictReason,
            Report = report,
            Requirements = RequirementResult.Judge(scenario.Requirements, report),
        };
    }
}
