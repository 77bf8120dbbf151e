// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Detectors;

/// <summary>One row of a settings schedule as it stands in files and scenarios: by the channel's name and in nanoseconds.</summary>
/// <param name="Channel">The channel.</param>
/// <param name="Setting">Which setting.</param>
/// <param name="ValueMilli">New value in thousandths of the setting's unit.</param>
/// <param name="EffectiveNs">Nominal device time [ns], at least 0: the first sample of the channel at or after it shows the change.</param>
public readonly record struct SettingChange(ChannelName Channel, SensorSetting Setting, int ValueMilli, long EffectiveNs)
{
    /// <summary>The value in the setting's unit.</summary>
    public double Value => ValueMilli / 1000.0;
}
