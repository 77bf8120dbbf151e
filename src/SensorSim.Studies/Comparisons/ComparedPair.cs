// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Files;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Comparisons;

/// <summary>Two detectors, or one in two versions, on the same streams: their rows run by run, as one study of two detectors.</summary>
public sealed record ComparedPair
{
    /// <summary>Index of the first detector in <see cref="Results"/>.</summary>
    public const int First = 0;

    /// <summary>Index of the second detector in <see cref="Results"/>.</summary>
    public const int Second = 1;

    /// <summary>Plan and rows; detector 0 is the first, 1 the second. Only runs that both have; requirements and definition of failure points are the first's.</summary>
    public required StudyResults Results { get; init; }

    /// <summary>What is known of the two: label, name and version of the detector, identity of the study, version of the program.</summary>
    public required IReadOnlyList<ComparedSide> Sides { get; init; }

    /// <summary>Sentences about what was left out or differs.</summary>
    public required IReadOnlyList<string> Notes { get; init; }

    /// <summary>What the users of the two sweeps were told, see <see cref="StudyNotices"/>; what both were told stands once.</summary>
    public IReadOnlyList<string> Notices { get; init; } = [];

    /// <summary>Pairs a detector of one sweep with one of another, or two of one sweep.</summary>
    /// <param name="first">The first sweep.</param>
    /// <param name="firstLabel">Label of its detector; null: its only one, or the first of two when both sweeps are the same.</param>
    /// <param name="second">The second sweep; may be the first.</param>
    /// <param name="secondLabel">Label of its detector.</param>
    /// <exception cref="InputFileException">They cannot be paired; the message says what differs.</exception>
    public static ComparedPair Of(FinishedSweep first, string? firstLabel, FinishedSweep second, string? secondLabel)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        if (!ReferenceEquals(first, second) && Pairing.WhyNot(first.Summary, second.Summary) is string why)
        {
            throw new InputFileException(second.Place, 0, 0, $"cannot be paired with {first.Place}: {why}.");
        }

        bool isOne = ReferenceEquals(first, second);
        int a = Pairing.DetectorOf(first, firstLabel, "--first", isOne && secondLabel is null ? 0 : null);
        int b = Pairing.DetectorOf(second, secondLabel, "--second", isOne && firstLabel is null ? 1 : null);
        if (isOne && a == b)
        {
            throw new InputFileException(first.Place, 0, 0, "this compares a detector with itself; give two labels or a second folder.");
        }

        ComparedSide[] sides = [Pairing.SideOf(first, a), Pairing.SideOf(second, b)];
        if (sides[0].Label == sides[1].Label)
        {
            sides = [sides[0] with { Label = $"{sides[0].Label} (first)" }, sides[1] with { Label = $"{sides[1].Label} (second)" }];
        }

        StudyPlan plan = first.Summary.Plan with { Detectors = [.. sides.Select(s => new DetectorChoice { Label = s.Label })] };
        (List<RunRow> rows, long leftOut) = Pairing.RowsOf(plan, first, a, second, b);
        if (rows.Count == 0)
        {
            throw new InputFileException(second.Place, 0, 0, $"has no run in common with {first.Place}.");
        }

        return new ComparedPair
        {
            Results = new StudyResults(plan, rows),
            Sides = sides,
            Notes = Pairing.NotesOf(first.Summary, second.Summary, leftOut),
            Notices = [.. first.Summary.Notices.Union(second.Summary.Notices, StringComparer.Ordinal)],
        };
    }
}

/// <summary>One of two compared detectors.</summary>
/// <param name="Label">Its label.</param>
/// <param name="Detector">Name and version, with its constants.</param>
/// <param name="StudyIdentity">Identity of the whole study that it was run in.</param>
/// <param name="ProgramVersion">Version of the program that made the runs.</param>
/// <param name="DetectorCount">Detectors of that study, which the numbers of its runs count.</param>
/// <param name="DetectorIndex">Its place among them.</param>
public sealed record ComparedSide(string Label, string Detector, string StudyIdentity, string ProgramVersion, int DetectorCount, int DetectorIndex)
{
    /// <summary>Number of a run in its own study.</summary>
    /// <param name="run">Number of the run in the comparison, where two detectors are counted.</param>
    public long OwnRun(long run) => ((run / 2) * DetectorCount) + DetectorIndex;
}
