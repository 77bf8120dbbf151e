// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Ecg;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>What the amplifier's input makes of pacing spikes: cut to its range before the analog low-pass, and flagged.</summary>
/// <remarks>
/// With an input range it draws the spikes in place of <see cref="SpikeGrid"/>: a spike of 700 mV that is cut to 300 mV leaves three sevenths
/// of its area. Without one it only flags.
/// </remarks>
internal sealed class SpikeInput
{
    // Edges that lie ahead: four to a beat, of the beats within its lead and a second.
    private const int Capacity = 256;

    private readonly BodyModel _body;
    private readonly SampleGrid _grid;
    private readonly double _rangeMv;
    private readonly bool _isFlagging;
    private readonly Edge[] _edges = new Edge[Capacity];
    private FrontEndResponse _response;
    private int _count;
    private long _nextBeat = BodyModel.FirstBeatId;

    /// <summary>Creates the input.</summary>
    /// <param name="body">Where the spikes come from.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    /// <param name="rangeMv">Input range; 0: none, spikes are drawn elsewhere [mV].</param>
    /// <param name="isFlagging">Whether spikes are flagged.</param>
    public SpikeInput(BodyModel body, SampleGrid grid, double rateHz, double rangeMv, bool isFlagging)
    {
        _body = body;
        _grid = grid;
        _rangeMv = rangeMv;
        _isFlagging = isFlagging;
        _response = new FrontEndResponse(FrontEndResponse.Omega(rateHz), double.PositiveInfinity, grid.StepSeconds);
    }

    private SpikeInput(SpikeInput other, BodyModel body)
    {
        _body = body;
        _grid = other._grid;
        _rangeMv = other._rangeMv;
        _isFlagging = other._isFlagging;
        _response = other._response;
        _count = other._count;
        _nextBeat = other._nextBeat;
        Array.Copy(other._edges, _edges, _count);
    }

    /// <summary>Adds the spikes to samples [mV], if there is a range, and flags them.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="status">Receives <see cref="SampleStatus.PacingSpike"/> at the first sample from a spike's begin on, and
    /// <see cref="SampleStatus.Saturated"/> there when the spike leaves the range.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    public void Add(Span<double> buffer, Span<ushort> status, long firstIndex)
    {
        long end = firstIndex + buffer.Length;
        Take(_grid.Seconds(end) + BodyModel.LeadSeconds);
        for (int done = 0; done < buffer.Length;)
        {
            // Edges at this sample enter in the order in which they were taken: the same for any cut.
            long index = firstIndex + done;
            long next = end;
            int kept = 0;
            for (int i = 0; i < _count; i++)
            {
                Edge edge = _edges[i];
                if (edge.Sample > index)
                {
                    next = Math.Min(next, edge.Sample);
                    _edges[kept++] = edge;
                }
                else
                {
                    Enter(edge, index, ref status[done]);
                }
            }

            _count = kept;
            int until = (int)(next - firstIndex);
            _response.AddTo(buffer[done..until]);
            done = until;
        }
    }

    public SpikeInput Copy(BodyModel body) => new(this, body);

    private void Enter(in Edge edge, long index, ref ushort status)
    {
        if (_rangeMv > 0)
        {
            _response.Begin(Math.Min(Math.Max(edge.Millivolts, -_rangeMv), _rangeMv), _grid.Seconds(index) - edge.Seconds);
            status |= (ushort)(edge.IsBegin && Math.Abs(edge.Millivolts) > _rangeMv ? SampleStatus.Saturated : SampleStatus.None);
        }

        status |= (ushort)(edge.IsBegin && _isFlagging ? SampleStatus.PacingSpike : SampleStatus.None);
    }

    private void Take(double untilSeconds)
    {
        while (_body.HasBeat(_nextBeat, untilSeconds))
        {
            ref readonly BeatView beat = ref _body.Beat(_nextBeat);
            for (int i = 0; i < PacingSpikes.Count; i++)
            {
                PacingSpike spike = beat.Spikes[i];
                double ends = spike.Seconds + spike.WidthSeconds;

                // Spikes before the stream are not drawn at all.
                if (spike.WidthSeconds > 0 && spike.Millivolts != 0 && _grid.FirstAtOrAfter(spike.Seconds) >= 0 && _count + 2 <= Capacity)
                {
                    _edges[_count++] = new Edge(spike.Seconds, _grid.FirstAtOrAfter(spike.Seconds), spike.Millivolts, true);
                    _edges[_count++] = new Edge(ends, _grid.FirstAtOrAfter(ends), -spike.Millivolts, false);
                }
            }

            _nextBeat++;
        }
    }

    private readonly record struct Edge(double Seconds, long Sample, double Millivolts, bool IsBegin);
}
