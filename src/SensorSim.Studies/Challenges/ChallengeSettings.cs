// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>How a challenge searches.</summary>
public sealed record ChallengeSettings
{
    /// <summary>Runs that the search may spend; the last batch is finished, and the shrinking comes on top.</summary>
    public int MostRuns { get; init; } = 3000;

    /// <summary>Seed of the search's own draws; the scenario's seed is another matter.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>How many further seeds a broken requirement is checked on: those after the scenario's own.</summary>
    public int CheckSeeds { get; init; } = 4;

    /// <summary>On how many of these it must be broken too, so that the scenario's seed is no fluke.</summary>
    public int CheckLeast { get; init; } = 3;

    /// <summary>Runs at the same time; results do not depend on it.</summary>
    public int Workers { get; init; } = Environment.ProcessorCount;

    /// <summary>The knobs.</summary>
    public IReadOnlyList<Knob> Knobs { get; init; } = Challenges.Knobs.All;
}
