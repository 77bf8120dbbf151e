// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Scheduling;

/// <summary>The settings schedule of a stream: what stood before the start, and what is added while it runs.</summary>
internal sealed class SettingsSchedule
{
    private readonly StreamFormat _format;
    private readonly SettingsRequest[] _planned;
    private readonly ChannelSchedule[] _channels;
    private readonly SettingLimits[] _limits;

    /// <summary>Creates a schedule.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="planned">What stands before the start, in any order; of the same time the later row wins.</param>
    /// <exception cref="ArgumentException">A row speaks of what the stream does not have, or its value or time is out of range.</exception>
    public SettingsSchedule(KeyValues values, StreamFormat format, IReadOnlyList<SettingChange> planned)
    {
        _format = format;
        int settings = SensorSettings.All.Count;
        _limits = new SettingLimits[format.Channels.Count * settings];
        for (int i = 0; i < _limits.Length; i++)
        {
            _limits[i] = SettingRanges.Of(values, format.Channels[i / settings].Name, (SensorSetting)(i % settings));
        }

        foreach (SettingChange change in planned)
        {
            Check(format.IndexOf(change.Channel), change.Setting, change.ValueMilli, nameof(planned));
            ArgumentOutOfRangeException.ThrowIfNegative(change.EffectiveNs, nameof(planned));
        }

        _planned =
        [
            .. planned.Select(p => new SettingsRequest(format.IndexOf(p.Channel), p.Setting, p.ValueMilli, format.Clock.TickAtOrAfterNs(p.EffectiveNs)))
                .OrderBy(p => p.EffectiveTick),
        ];
        _channels = [.. Enumerable.Range(0, format.Channels.Count).Select(c => new ChannelSchedule(format, c, _planned))];
    }

    private SettingsSchedule(SettingsSchedule other)
    {
        _format = other._format;
        _planned = other._planned;
        _limits = other._limits;
        _channels = Array.ConvertAll(other._channels, c => c.Copy());
    }

    /// <summary>What stood before the start, in ascending order of ticks.</summary>
    public IReadOnlyList<SettingsRequest> Planned => _planned;

    /// <summary>The changes of a channel.</summary>
    /// <param name="channel">Channel number.</param>
    public ChannelSchedule this[int channel] => _channels[channel];

    /// <summary>The values that a setting of a channel may have; none for what does not exist.</summary>
    public SettingLimits Limits(int channel, SensorSetting setting) =>
        (uint)channel < (uint)_format.Channels.Count && (uint)setting < (uint)SensorSettings.All.Count
            ? _limits[(channel * SensorSettings.All.Count) + (int)setting]
            : SettingLimits.None;

    /// <summary>Adds a change.</summary>
    /// <param name="change">The change.</param>
    /// <param name="positionTick">First tick not yet read.</param>
    /// <returns>Whether there was room.</returns>
    public bool Add(in SettingsRequest change, long positionTick)
    {
        Check(change.Channel, change.Setting, change.ValueMilli, nameof(change));
        if (change.EffectiveTick < positionTick)
        {
            throw new ArgumentException($"Tick {change.EffectiveTick} has been read already, up to {positionTick}.", nameof(change));
        }

        return _channels[change.Channel].Add(_format, change);
    }

    /// <summary>An independent copy at the same place.</summary>
    public SettingsSchedule Copy() => new(this);

    private void Check(int channel, SensorSetting setting, int milli, string name)
    {
        if (!Limits(channel, setting).Allows(milli))
        {
            throw new ArgumentException($"Setting {(int)setting} of channel {channel} cannot be {milli} thousandths.", name);
        }
    }
}
