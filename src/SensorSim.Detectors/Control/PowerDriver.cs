// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Leads the samples of the accelerometer to the library's power controller.</summary>
internal sealed class PowerDriver(PowerSettings settings)
{
    private static readonly ChannelName[] s_names = [ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ];
    private readonly PowerSettings _settings = settings;
    private PowerController _controller;
    private LightChannels _light = new(null);
    private int[] _channels = [];
    private int[] _axes = [];
    private int _rateHz;

    /// <summary>Prepares for a stream; drops all state.</summary>
    /// <param name="format">Its format.</param>
    public void Begin(StreamFormat format)
    {
        _light = new LightChannels(format);
        _axes = [.. Enumerable.Range(0, s_names.Length).Where(a => format.IndexOf(s_names[a]) >= 0)];
        _channels = Array.ConvertAll(_axes, a => format.IndexOf(s_names[a]));
        if (_channels.Length > 0)
        {
            // Axes of one accelerometer have one rate and one scale.
            ChannelFormat first = format.Channels[_channels[0]];
            _rateHz = first.RateHz;
            _controller.Start(_rateHz, _axes.Sum(static a => 1 << a), Codes(_settings.StillMg, first), Codes(_settings.MovingMg, first));
        }
    }

    /// <summary>Takes what of a block lies within a second.</summary>
    /// <param name="block">The block.</param>
    /// <param name="second">The second.</param>
    /// <param name="requests">Receives what is asked for.</param>
    public void Take(SampleBlock block, long second, EventRing<SettingsRequest> requests)
    {
        for (int i = 0; i < _channels.Length; i++)
        {
            ChannelBlock channel = block.Channels[_channels[i]];
            foreach (SampleRun run in channel.Runs)
            {
                SampleRun part = SecondSlices.Part(run, _rateHz, second);
                for (int k = 0; k < part.Count; k++)
                {
                    if (_controller.Next(_settings, _axes[i], channel.Codes[part.Offset + k], part.FirstIndex + k))
                    {
                        _light.Add(_controller.Request, requests);
                    }
                }
            }
        }

        if (_channels.Length > 0 && _controller.PassTime(_settings, second))
        {
            _light.Add(_controller.Request, requests);
        }
    }

    private static int Codes(int mg, ChannelFormat format) => (int)Math.Ceiling(mg * 0.001 / format.UnitPerCode);
}
