// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Comparisons;

/// <summary>What the summary of a finished sweep says of the study: enough to read its rows and to tell whether another one can be paired with it.</summary>
public sealed record SweepSummary
{
    /// <summary>
    /// The study as far as its summary tells: points, seeds, persons, labels of the detectors, requirements, definition of failure points. Its scenario
    /// has title and duration only, so nothing can be run from it.
    /// </summary>
    public required StudyPlan Plan { get; init; }

    /// <summary>Identity of the whole study, see <see cref="Sweeps.StudyIdentity.OfAll"/>.</summary>
    public required string IdentityOfAll { get; init; }

    /// <summary>Identity of the streams, see <see cref="Sweeps.StudyIdentity.OfStreams"/>.</summary>
    public required string IdentityOfStreams { get; init; }

    /// <summary>Version of the program that made it.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Version of the generator.</summary>
    public required int GeneratorVersion { get; init; }

    /// <summary>What its user was told, see <see cref="StudyNotices"/>; none in a summary that does not tell.</summary>
    public IReadOnlyList<string> Notices { get; init; } = [];

    /// <summary>The seeds on which constants were chosen, and what was chosen; null when nothing was tuned.</summary>
    public (TuningSettings Settings, IReadOnlyList<TunedConstants> Chosen)? Tuned { get; init; }

    /// <summary>Name, version and constants of each detector, in their order.</summary>
    public required IReadOnlyList<string> Detectors { get; init; }
}
