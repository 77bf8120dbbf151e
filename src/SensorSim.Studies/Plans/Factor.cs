// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Studies.Plans;

/// <summary>A key that a study varies: of the scenario, or a constant of the detector (<c>detector.…</c>).</summary>
/// <param name="Key">The key.</param>
/// <param name="Levels">
/// Its values in the order of the file, numbers or words; for a Latin hypercube the two ends of its range. A number is a <see cref="double"/>,
/// a word a <see cref="string"/>.
/// </param>
public sealed record Factor(KeyDefinition Key, IReadOnlyList<object> Levels)
{
    /// <summary>Whether it is a constant of the detector.</summary>
    public bool IsOfDetector => Key.Name.StartsWith("detector.", StringComparison.Ordinal);

    /// <summary>Whether its values are numbers.</summary>
    public bool IsNumber => Key is NumberKey;

    /// <summary>Whether its range was divided by equal ratios (logarithmically): plots and fits then use the logarithm.</summary>
    public bool IsInRatios { get; init; }
}
