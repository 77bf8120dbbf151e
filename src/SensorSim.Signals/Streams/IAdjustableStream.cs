// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;

namespace SensorSim.Signals.Streams;

/// <summary>A stream whose sensor takes changes of its settings while it runs.</summary>
public interface IAdjustableStream : ISampleStream
{
    /// <summary>The changes that stood before the start, in ascending order of their ticks.</summary>
    IReadOnlyList<SettingsRequest> Planned { get; }

    /// <summary>The values that a setting of a channel may have.</summary>
    /// <param name="channel">Channel number in the format.</param>
    /// <param name="setting">A setting.</param>
    /// <returns>The values; <see cref="SettingLimits.None"/> when there is no such channel, or it has no such setting.</returns>
    SettingLimits Limits(int channel, SensorSetting setting);

    /// <summary>Adds a change that has not stood before the start. Of changes at the same tick the planned ones come first.</summary>
    /// <param name="change">The change: its tick not before the position nor before that of the last one added to the channel.</param>
    /// <returns>Whether there was room.</returns>
    /// <exception cref="ArgumentException">The tick or the value is not what it may be.</exception>
    /// <exception cref="InvalidOperationException">The settings were to be kept (<see cref="KeepSettings"/>).</exception>
    bool Schedule(in SettingsRequest change);

    /// <summary>Says that nothing will be added any more: what is ahead may be made in long stretches, which is less work and the same samples.</summary>
    void KeepSettings();
}
