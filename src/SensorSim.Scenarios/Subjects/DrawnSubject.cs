// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Subjects;

/// <summary>One value of a drawn person.</summary>
/// <param name="Key">The key that has it.</param>
/// <param name="Number">The number; NaN when the key holds a word.</param>
/// <param name="Word">The word; empty when the key holds a number.</param>
public sealed record DrawnValue(KeyDefinition Key, double Number, string Word)
{
    /// <summary>The value as text, without its unit.</summary>
    public string Text => Word.Length > 0 ? Word : Number.ToString("R", CultureInfo.InvariantCulture);
}

/// <summary>A person drawn by a seed: every value that the scenario did not set itself.</summary>
/// <param name="Seed">The seed.</param>
/// <param name="Values">The values, in the order in which they were drawn.</param>
public sealed record DrawnSubject(ulong Seed, IReadOnlyList<DrawnValue> Values);
