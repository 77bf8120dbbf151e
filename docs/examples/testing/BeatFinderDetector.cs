// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace BandApp.Tests;

/// <summary>All that stands between the app's code and the tests: the detector contract around <see cref="BeatFinder"/>.</summary>
public sealed class BeatFinderDetector : IDetector
{
    private BeatFinder _finder = new(250);
    private int _channel;
    private int _rateHz;
    private long _ticksPerSample;
    private long _next;

    /// <inheritdoc/>
    public string Name => "band app 2.3";

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        _channel = format.IndexOf(ChannelName.Ecg);
        if (_channel < 0)
        {
            throw new NotSupportedException("The stream has no ecg; the app needs it.");
        }

        _rateHz = format.Channels[_channel].RateHz;
        _ticksPerSample = format.TicksPerSample(_channel);
        _finder = new BeatFinder(_rateHz);
        _next = 0;
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ChannelBlock channel = block.Channels[_channel];
        foreach (SampleRun run in channel.Runs)
        {
            // After a gap the app begins anew.
            _finder = run.FirstIndex == _next ? _finder : new BeatFinder(_rateHz);
            for (int i = 0; i < run.Count; i++)
            {
                long index = run.FirstIndex + i;
                if (_finder.Push(channel.Codes[run.Offset + i]) is >= 0 and int ago)
                {
                    output.Marks.Add(new Mark
                    {
                        Channel = _channel, Kind = MarkKind.RPeak, Sample = index - ago, Quality = 255, EmittedTick = index * _ticksPerSample,
                    });
                }
            }

            _next = run.FirstIndex + run.Count;
        }
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
    }

    /// <inheritdoc/>
    public void Dispose()
    {
    }
}
