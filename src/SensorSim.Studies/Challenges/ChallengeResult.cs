// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;

namespace SensorSim.Studies.Challenges;

/// <summary>What a challenge found, and how hard it tried.</summary>
public sealed record ChallengeResult
{
    /// <summary>The scenario that it began with.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>How it searched.</summary>
    public required ChallengeSettings Settings { get; init; }

    /// <summary>Name and version of the detector.</summary>
    public required string Detector { get; init; }

    /// <summary>The knobs that could be turned on this scenario.</summary>
    public required IReadOnlyList<KnobRange> Ranges { get; init; }

    /// <summary>The mildest input that broke a requirement, shrunk, then shortened; null when nothing did.</summary>
    public Trial? Found { get; init; }

    /// <summary>The same at the scenario's full length, by which it was judged; null when nothing broke.</summary>
    public Trial? AtFullLength { get; init; }

    /// <summary>Harshness of that input before it was shrunk; null when nothing broke.</summary>
    public double? FoundHarshness { get; init; }

    /// <summary>What each knob alone broke at the mildest and at the full length, in the order of <see cref="Ranges"/>; null where it broke nothing.</summary>
    public required IReadOnlyList<Trial?> Alone { get; init; }

    /// <summary>The scenario of <see cref="Found"/>; null when nothing broke.</summary>
    public Scenario? Broken { get; init; }

    /// <summary>When and how it fails; null when nothing broke.</summary>
    public Moment? Moment { get; init; }

    /// <summary>The stretch about that moment; null when nothing broke.</summary>
    public Running.FirstSeconds? Around { get; init; }

    /// <summary>Runs made.</summary>
    public required long RunCount { get; init; }

    /// <summary>Runs made until the shrinking began.</summary>
    public required long SearchRunCount { get; init; }

    /// <summary>Inputs tried.</summary>
    public required long InputCount { get; init; }

    /// <summary>Inputs whose values contradict each other or the scenario.</summary>
    public required long ContradictionCount { get; init; }

    /// <summary>The harshest input that held; null when none did.</summary>
    public ChallengeInput? HarshestHeld { get; init; }
}
