// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Detectors;

namespace SensorSim.Signals.Streams;

/// <summary>The values that a setting may have.</summary>
/// <param name="MinimumMilli">Smallest one, in thousandths of the unit.</param>
/// <param name="MaximumMilli">Largest one, in thousandths of the unit.</param>
/// <param name="StepMilli">Distance from one to the next, in thousandths of the unit: 1, or 1000 for whole numbers.</param>
public readonly record struct SettingLimits(int MinimumMilli, int MaximumMilli, int StepMilli)
{
    /// <summary>No value at all: the channel has no such setting.</summary>
    public static SettingLimits None => new(0, -1, 1);

    /// <summary>Whether there is any value.</summary>
    public bool Exists => MinimumMilli <= MaximumMilli;

    /// <summary>Whether a value is allowed.</summary>
    /// <param name="milli">The value in thousandths of the unit.</param>
    public bool Allows(int milli) => milli >= MinimumMilli && milli <= MaximumMilli && milli % StepMilli == 0;

    /// <summary>What is allowed, in words, for example <c>a whole number, 0 to 1000</c>.</summary>
    /// <param name="setting">The setting, for its unit.</param>
    public string Text(SensorSetting setting)
    {
        string sort = StepMilli == 1000 ? "a whole number" : "a number of at most three decimals";
        return string.Create(CultureInfo.InvariantCulture, $"{sort}, {MinimumMilli / 1000.0:R} to {MaximumMilli / 1000.0:R} {setting.Unit()}").TrimEnd();
    }
}
