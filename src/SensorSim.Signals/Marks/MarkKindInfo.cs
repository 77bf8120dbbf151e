// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Marks;

/// <summary>One row of the table of kinds.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Text">Text form in files.</param>
/// <param name="ValueUnit">Unit of the value column; empty when the kind has no value.</param>
/// <param name="Sort">What sort of row it is.</param>
public sealed record MarkKindInfo(MarkKind Kind, string Text, string ValueUnit, MarkSort Sort);

/// <summary>What sort of row a kind makes.</summary>
public enum MarkSort
{
    /// <summary>Something at a point in time.</summary>
    Event,

    /// <summary>A value of one beat of truth.</summary>
    BeatValue,

    /// <summary>A value that a device would show, over a window of time.</summary>
    Reading,
}
