// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Rhythm;

/// <summary>Knobs of block between atrium and ventricle.</summary>
public static class BlockKeys
{
    /// <summary>Length of a cycle of second-degree block.</summary>
    public static readonly NumberKey PWavesPerCycle = new()
    {
        Name = "block.p_waves_per_cycle",
        Unit = "",
        Meaning = "P waves in a cycle of second-degree block, of which all but the last are conducted: 4 makes 4:3.",
        Source = "Terms of the trade.",
        IsLive = true,
        IsWhole = true,
        Minimum = 2,
        Maximum = 12,
        Default = 4,
    };

    /// <summary>First growth of the PR interval.</summary>
    public static readonly NumberKey PrIncrementMs = new()
    {
        Name = "block.pr_increment_ms",
        Unit = "ms",
        Meaning = "Type 1: how much longer the second PR interval of a cycle is than the first; every further growth is half of the one before.",
        Source = "PR grows by shrinking steps (textbook, common practice).",
        IsLive = true,
        Minimum = 5,
        Maximum = 150,
        Default = 80,
    };

    /// <summary>Origin of the escape beats.</summary>
    public static readonly ChoiceKey Escape = new()
    {
        Name = "block.escape",
        Meaning = "Where the beats of third-degree block come from: junctional are narrow, ventricular wide.",
        Source = "Textbook (common practice).",
        Choices = ["junctional", "ventricular"],
        Default = "ventricular",
    };

    /// <summary>Rate of the escape beats.</summary>
    public static readonly NumberKey EscapeRateBpm = new()
    {
        Name = "block.escape_rate_bpm",
        Unit = "bpm",
        Meaning = "Rate of the escape beats of third-degree block.",
        Source = "Junctional 40 to 60, ventricular 20 to 40 bpm (common practice).",
        IsLive = true,
        Minimum = 15,
        Maximum = 90,
        Default = 36,
    };

    /// <summary>Every knob of this section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [PWavesPerCycle, PrIncrementMs, Escape, EscapeRateBpm];
}
