// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Signals.Keys;

/// <summary>A knob with a real value.</summary>
public sealed record NumberKey : KeyDefinition
{
    /// <summary>Smallest allowed value, included.</summary>
    public required double Minimum { get; init; }

    /// <summary>Largest allowed value, included.</summary>
    public required double Maximum { get; init; }

    /// <summary>Value when the scenario does not say.</summary>
    public required double Default { get; init; }

    /// <summary>Whether only whole numbers are allowed.</summary>
    public bool IsWhole { get; init; }

    /// <inheritdoc/>
    public override string DefaultText => Text(Default);

    /// <inheritdoc/>
    public override string RangeText => $"{Text(Minimum)} to {Text(Maximum)}{(IsWhole ? ", whole" : "")}";

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
