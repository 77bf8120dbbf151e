// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Keeps a short stretch of a run for a picture: samples, truth and marks.</summary>
public sealed class FirstSeconds : IRunSink
{
    private readonly StreamFormat _format;
    private readonly ChannelClock[] _clocks;
    private readonly double[][] _values;
    private readonly long[] _firstSample;
    private readonly List<TruthEvent> _truth = [];
    private readonly List<Mark> _marks = [];

    /// <summary>Creates the sink.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="beginSeconds">Begin of the stretch [s].</param>
    /// <param name="endSeconds">End of the stretch [s], above the begin.</param>
    /// <param name="clocks">Clock of each channel; null when they show body time.</param>
    public FirstSeconds(StreamFormat format, double beginSeconds, double endSeconds, IReadOnlyList<ChannelClock>? clocks = null)
    {
        ArgumentNullException.ThrowIfNull(format);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(endSeconds, beginSeconds);
        _format = format;
        _clocks = [.. clocks ?? format.Channels.Select(c => new ChannelClock(c.Name, 0, 0))];
        BeginSeconds = beginSeconds;
        EndSeconds = endSeconds;
        _values = new double[format.Channels.Count][];
        _firstSample = new long[format.Channels.Count];
        for (int i = 0; i < _values.Length; i++)
        {
            _firstSample[i] = format.FirstSampleAtOrAfter(i, format.Clock.TickAtOrAfter(beginSeconds));
            long end = format.FirstSampleAtOrAfter(i, format.Clock.TickAtOrAfter(endSeconds));
            _values[i] = new double[end - _firstSample[i]];
            Array.Fill(_values[i], double.NaN);
        }
    }

    /// <summary>Begin of the stretch [s].</summary>
    public double BeginSeconds { get; }

    /// <summary>End of the stretch [s].</summary>
    public double EndSeconds { get; }

    /// <summary>Rows of truth inside, declared delays apart, in order of arrival.</summary>
    public IReadOnlyList<TruthEvent> Truth => _truth;

    /// <summary>Marks inside, in order of arrival.</summary>
    public IReadOnlyList<Mark> Marks => _marks;

    /// <summary>Format of the stream.</summary>
    public StreamFormat Format => _format;

    /// <summary>Physical values of a channel [its unit]; NaN where no sample was delivered.</summary>
    /// <param name="channel">Channel number.</param>
    public IReadOnlyList<double> Values(int channel) => _values[channel];

    /// <summary>Nominal device time of an element of <see cref="Values"/> [s].</summary>
    /// <param name="channel">Channel number.</param>
    /// <param name="element">Element.</param>
    public double Seconds(int channel, int element) => (double)(_firstSample[channel] + element) / _format.Channels[channel].RateHz;

    /// <summary>Nominal device time at which a channel shows something [s].</summary>
    /// <param name="channel">Channel number.</param>
    /// <param name="bodyNs">Body time [ns].</param>
    public double DeviceSeconds(int channel, long bodyNs) =>
        (bodyNs + _clocks[channel].LateNs(bodyNs) + _format.Channels[channel].DeclaredDelayNs) * 1e-9;

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        for (int c = 0; c < _values.Length; c++)
        {
            foreach (SampleRun run in block.Channels[c].Runs)
            {
                for (int i = 0; i < run.Count; i++)
                {
                    long element = run.FirstIndex + i - _firstSample[c];
                    if (element >= 0 && element < _values[c].Length)
                    {
                        _values[c][element] = _format.Channels[c].Physical(block.Channels[c].Codes[run.Offset + i]);
                    }
                }
            }
        }
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        int channel = _format.IndexOf(truth.Channel);
        if (IsInside(truth.TimeNs + (channel < 0 ? 0 : _clocks[channel].LateNs(truth.TimeNs))))
        {
            _truth.Add(truth);
        }
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        if (IsInside(_format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256)))
        {
            _marks.Add(mark);
        }
    }

    private bool IsInside(long timeNs) => timeNs * 1e-9 >= BeginSeconds && timeNs * 1e-9 < EndSeconds;
}
