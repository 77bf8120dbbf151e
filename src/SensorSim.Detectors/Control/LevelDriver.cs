// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Leads the samples of the optical channels to the library's level controller.</summary>
internal sealed class LevelDriver(LevelSettings settings)
{
    private readonly LevelSettings _settings = settings;
    private LevelController _controller;
    private LightChannels _light = new(null);
    private int[] _rates = [];

    /// <summary>Prepares for a stream; drops all state.</summary>
    /// <param name="format">Its format.</param>
    public void Begin(StreamFormat format)
    {
        _light = new LightChannels(format);
        _rates = Array.ConvertAll(_light.Channels, c => format.Channels[c].RateHz);
        _controller.Start();
        for (int i = 0; i < _light.Channels.Length; i++)
        {
            ChannelFormat channel = format.Channels[_light.Channels[i]];
            _ = _controller.Add(_light.Roles[i], channel.RateHz, channel.ZeroCode, channel.MaximumCode);
        }
    }

    /// <summary>Takes what of a block lies within a second.</summary>
    /// <param name="block">The block.</param>
    /// <param name="second">The second.</param>
    /// <param name="requests">Receives what is asked for.</param>
    public void Take(SampleBlock block, long second, EventRing<SettingsRequest> requests)
    {
        for (int i = 0; i < _rates.Length; i++)
        {
            ChannelBlock channel = block.Channels[_light.Channels[i]];
            foreach (SampleRun run in channel.Runs)
            {
                SampleRun part = SecondSlices.Part(run, _rates[i], second);
                for (int k = 0; k < part.Count; k++)
                {
                    int at = part.Offset + k;
                    if (_controller.Next(_settings, _light.Roles[i], channel.Codes[at], channel.Status[at], part.FirstIndex + k))
                    {
                        _light.Add(_controller.Request, requests);
                    }
                }
            }
        }
    }
}
