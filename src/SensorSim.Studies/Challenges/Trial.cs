// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>What became of an input.</summary>
public enum TrialState
{
    /// <summary>Every requirement was met, or not broken on enough of the check seeds.</summary>
    Held,

    /// <summary>A requirement was broken, on enough of the check seeds too.</summary>
    Broken,

    /// <summary>Its values contradict each other or the scenario; nothing was run.</summary>
    Contradictory,
}

/// <summary>An input that was tried.</summary>
/// <param name="Input">The input.</param>
/// <param name="State">What became of it.</param>
/// <param name="Breach">What broke, with the figure for the scenario's own seed; null unless it did.</param>
/// <param name="CheckRuns">Check seeds that were run; fewer than there are when the rest could change nothing.</param>
/// <param name="CheckBroken">Of these, how many broke it too.</param>
/// <param name="RunCount">Runs made.</param>
public sealed record Trial(ChallengeInput Input, TrialState State, Breach? Breach, int CheckRuns, int CheckBroken, int RunCount)
{
    /// <summary>Whether it broke a requirement.</summary>
    public bool IsBroken => State == TrialState.Broken;
}
