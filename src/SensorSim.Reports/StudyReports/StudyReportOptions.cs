// SPDX-License-Identifier: MIT
using SensorSim.Studies.WorstCases;

namespace SensorSim.Reports.StudyReports;

/// <summary>What a report shows beside plan, rows and failure points.</summary>
public sealed record StudyReportOptions
{
    /// <summary>Identity of the study, as results files print it; empty: left out.</summary>
    public string Identity { get; init; } = "";

    /// <summary>Identity of each detector, in their order: name, version, hash of a file; empty: only labels are shown.</summary>
    public IReadOnlyList<string> DetectorIdentities { get; init; } = [];

    /// <summary>Runs to show with their signals.</summary>
    public IReadOnlyList<WorstCase> WorstCases { get; init; } = [];

    /// <summary>Readings against truth.</summary>
    public IReadOnlyList<AgreementData> Agreement { get; init; } = [];

    /// <summary>Sentences that the reader must not miss, for example that the constants of a detector were tuned.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
}
