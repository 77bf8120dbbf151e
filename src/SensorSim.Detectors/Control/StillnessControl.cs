// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Switches the light off while the accelerometer sees no movement, and on again with the first one.</summary>
/// <remarks>
/// A second is still when the codes of each axis lie within <see cref="StillMg"/> of each other. After <see cref="SleepSeconds"/> still
/// seconds in a row every optical channel is asked to sleep (decimation 0); the first second that is not still asks for all of them
/// (decimation 1). A device that is put away saves its light so; a wearer who holds that still is taken for a table.
/// </remarks>
public sealed class StillnessControl : ControllingDetector
{
    internal const string Word = "sleep_when_still";

    /// <summary>Largest spread of an axis within a still second [mg].</summary>
    public const int StillMg = 30;

    /// <summary>Still seconds before the light sleeps.</summary>
    public const int SleepSeconds = 10;

    private static readonly ChannelName[] s_light = [ChannelName.Red, ChannelName.Infrared, ChannelName.Green, ChannelName.Dark];
    private int[] _light = [];
    private Axis[] _axes = [];
    private int _stillSeconds;
    private bool _isAsleep;

    /// <summary>Puts the control around a detector.</summary>
    /// <param name="inner">Gives the marks; disposed with this one.</param>
    public StillnessControl(IDetector inner)
        : base(inner, Word)
    {
    }

    private protected override void Begin(StreamFormat format)
    {
        _light = [.. s_light.Select(format.IndexOf).Where(c => c >= 0)];
        ChannelName[] axes = [ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ];
        int[] channels = [.. axes.Select(format.IndexOf).Where(c => c >= 0)];
        _axes = Array.ConvertAll(channels, c => new Axis(c, format.Channels[c]));
        _stillSeconds = 0;
        _isAsleep = false;
    }

    private protected override void Control(SampleBlock block, EventRing<SettingsRequest> requests)
    {
        // Axes of one accelerometer have one rate: the seconds of all end with the same sample.
        for (int i = 0; i < _axes.Length; i++)
        {
            ChannelBlock channel = block.Channels[_axes[i].Channel];
            foreach (SampleRun run in channel.Runs)
            {
                _axes[i].Take(channel.Codes.Slice(run.Offset, run.Count), run.FirstIndex);
            }
        }

        while (_axes.Length > 0 && Array.TrueForAll(_axes, static a => a.Ended > 0))
        {
            bool isStill = true;
            for (int i = 0; i < _axes.Length; i++)
            {
                isStill &= _axes[i].TakeStill();
            }

            Decide(isStill, requests);
        }
    }

    private void Decide(bool isStill, EventRing<SettingsRequest> requests)
    {
        _stillSeconds = isStill ? Math.Min(_stillSeconds + 1, SleepSeconds) : 0;
        bool shallSleep = _stillSeconds == SleepSeconds;
        if (shallSleep == _isAsleep)
        {
            return;
        }

        _isAsleep = shallSleep;
        foreach (int channel in _light)
        {
            requests.Add(new SettingsRequest(channel, SensorSetting.Decimation, shallSleep ? 0 : 1000, 0));
        }
    }

    // Spread of one axis, second by second; verdicts wait, one bit each, until every axis has one.
    private struct Axis(int channel, ChannelFormat format)
    {
        private readonly int _rateHz = format.RateHz;
        private readonly int _stillCodes = (int)Math.Ceiling(StillMg * 0.001 / format.UnitPerCode);
        private long _second;
        private long _end = format.RateHz;
        private int _lowest = int.MaxValue;
        private int _highest = int.MinValue;
        private ulong _still;

        public readonly int Channel { get; } = channel;

        public int Ended { get; private set; }

        public void Take(ReadOnlySpan<int> codes, long firstIndex)
        {
            for (int i = 0; i < codes.Length; i++)
            {
                if (firstIndex + i >= _end)
                {
                    EndSecond((firstIndex + i) / _rateHz);
                }

                _lowest = Math.Min(_lowest, codes[i]);
                _highest = Math.Max(_highest, codes[i]);
            }
        }

        public bool TakeStill()
        {
            Ended--;
            return ((_still >> Ended) & 1) != 0;
        }

        // Seconds without a sample count as moving: what is not seen is not still.
        private void EndSecond(long second)
        {
            bool isStill = second == _second + 1 && _highest - (long)_lowest <= _stillCodes;
            _still = (_still << 1) | (isStill ? 1UL : 0);
            Ended = Math.Min(Ended + 1, 63);
            _second = second;
            _end = (second + 1) * _rateHz;
            _lowest = int.MaxValue;
            _highest = int.MinValue;
        }
    }
}
