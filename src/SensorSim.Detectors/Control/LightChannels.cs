// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>The optical channels of a stream by their roles, and requests of the library turned into requests of the stream.</summary>
internal sealed class LightChannels
{
    private static readonly ChannelName[] s_names = [ChannelName.Red, ChannelName.Infrared, ChannelName.Green, ChannelName.Dark];

    /// <summary>Finds the channels.</summary>
    /// <param name="format">Format of the stream; null: there are none.</param>
    public LightChannels(StreamFormat? format)
    {
        ControlRole[] roles = format is null ? [] : [.. Enumerable.Range(0, s_names.Length).Where(r => format.IndexOf(s_names[r]) >= 0).Select(r => (ControlRole)r)];
        Roles = roles;
        Channels = format is null ? [] : Array.ConvertAll(roles, r => format.IndexOf(s_names[(int)r]));
    }

    /// <summary>Roles that there are, ascending.</summary>
    public ControlRole[] Roles { get; }

    /// <summary>Channel numbers of them.</summary>
    public int[] Channels { get; }

    /// <summary>Adds a request; one for all light becomes one for each optical channel.</summary>
    /// <param name="request">The request.</param>
    /// <param name="requests">Receives it.</param>
    public void Add(in ControlRequest request, EventRing<SettingsRequest> requests)
    {
        SensorSetting setting = request.Setting switch
        {
            ControlSetting.LedCurrent => SensorSetting.LedCurrentMa,
            ControlSetting.PulseWidth => SensorSetting.PulseWidthUs,
            ControlSetting.Gain => SensorSetting.Gain,
            _ => SensorSetting.Decimation,
        };
        for (int i = 0; i < Roles.Length; i++)
        {
            if (request.Role == ControlRole.AllLight || request.Role == Roles[i])
            {
                requests.Add(new SettingsRequest(Channels[i], setting, request.ValueMilli, 0));
            }
        }
    }
}
