// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>What one <c>[[vary]]</c> says.</summary>
/// <param name="Key">The key; a constant of the detector (<c>detector.…</c>) is a number without limits until the detector is known.</param>
public sealed record VariedKey(KeyDefinition Key)
{
    /// <summary>Values one by one, each a <see cref="double"/> or a <see cref="string"/>; empty when there is a range.</summary>
    public IReadOnlyList<object> Values { get; init; } = [];

    /// <summary>First value of the range.</summary>
    public double From { get; init; }

    /// <summary>Last value of the range.</summary>
    public double To { get; init; }

    /// <summary>Number of values of the range; 0 in a Latin hypercube.</summary>
    public int Count { get; init; }

    /// <summary>Whether it is divided by equal ratios.</summary>
    public bool IsInRatios { get; init; }

    /// <summary>Whether it is a range.</summary>
    public bool IsRange => Values.Count == 0;

    /// <summary>Whether it is a constant of the detector.</summary>
    public bool IsOfDetector => IsConstant(Key.Name);

    /// <summary>Whether a name is that of a constant of the detector.</summary>
    /// <param name="name">Full name.</param>
    public static bool IsConstant(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return name.StartsWith("detector.", StringComparison.Ordinal);
    }
}
