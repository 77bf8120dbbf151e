// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>Draws the clean ECG on a grid of samples: two multiplications for each wave and sample.</summary>
/// <remarks>
/// A Gaussian on a regular grid obeys g ← g·r, r ← r·q. Each wave's recurrence starts at the wave's own first sample, and waves are
/// summed in order of beat and wave, so no cut of the stream changes a bit.
/// </remarks>
public sealed class EcgGrid
{
    private const int Capacity = 256;

    // Longest stretch drawn at once [s]: at the shortest RR interval its waves still fit the list of active ones.
    private const double PieceSeconds = 4;

    private readonly BodyModel _body;
    private readonly SampleGrid _grid;
    private readonly int _piece;
    private readonly ActiveWave[] _active = new ActiveWave[Capacity];
    private int _count;
    private long _nextBeat;

    /// <summary>Creates a renderer.</summary>
    /// <param name="body">Where the beats come from.</param>
    /// <param name="grid">Sampling instants.</param>
    public EcgGrid(BodyModel body, SampleGrid grid)
    {
        ArgumentNullException.ThrowIfNull(body);
        _body = body;
        _grid = grid;
        _piece = (int)Math.Max(1, Math.Min(1 << 20, Math.Floor(PieceSeconds / grid.StepSeconds)));
        _nextBeat = BodyModel.FirstBeatId;
    }

    private EcgGrid(EcgGrid other, BodyModel body)
    {
        _body = body;
        _grid = other._grid;
        _piece = other._piece;
        _count = other._count;
        _nextBeat = other._nextBeat;
        Array.Copy(other._active, _active, _count);
    }

    /// <summary>Adds the clean voltage [mV] to samples; reads forward only.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">The sample after the last one of the call before.</param>
    public void Add(Span<double> buffer, long firstIndex)
    {
        for (int done = 0; done < buffer.Length; done += _piece)
        {
            AddPiece(buffer.Slice(done, Math.Min(_piece, buffer.Length - done)), firstIndex + done);
        }
    }

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    /// <param name="body">The copy of the body.</param>
    public EcgGrid Copy(BodyModel body) => new(this, body);

    private void AddPiece(Span<double> buffer, long firstIndex)
    {
        long end = firstIndex + buffer.Length;
        Activate(_grid.Seconds(end) + BodyModel.LeadSeconds, firstIndex);
        int kept = 0;
        for (int i = 0; i < _count; i++)
        {
            ref ActiveWave wave = ref _active[i];
            if (wave.Next < end)
            {
                int from = (int)(wave.Next - firstIndex);
                int to = (int)(Math.Min(wave.Last + 1, end) - firstIndex);
                double g = wave.Value;
                double r = wave.Ratio;
                double q = wave.RatioStep;
                for (int k = from; k < to; k++)
                {
                    buffer[k] += g;
                    g *= r;
                    r *= q;
                }

                wave.Value = g;
                wave.Ratio = r;
                wave.Next = firstIndex + to;
            }

            if (wave.Next <= wave.Last)
            {
                _active[kept++] = wave;
            }
        }

        _count = kept;
    }

    private void Activate(double untilSeconds, long firstIndex)
    {
        while (_body.TryBeat(_nextBeat, untilSeconds, out BeatView beat))
        {
            for (int i = 0; i < EcgBeat.Count; i++)
            {
                Start(beat.Ecg[i], firstIndex);
            }

            _nextBeat++;
        }
    }

    private void Start(in EcgWave wave, long firstIndex)
    {
        double reach = EcgWave.CutSigmas * wave.SigmaSeconds;
        long first = _grid.FirstAtOrAfter(wave.CentreSeconds - reach);
        long last = _grid.FirstAtOrAfter(wave.CentreSeconds + reach) - 1;
        if (wave.Millivolts == 0 || last < first || last < firstIndex)
        {
            return;
        }

        double step = _grid.StepSeconds / wave.SigmaSeconds;
        double x = (_grid.Seconds(first) - wave.CentreSeconds) / wave.SigmaSeconds;
        ref ActiveWave entry = ref _active[_count++];
        entry.Value = wave.Millivolts * PortableMath.Exp(-0.5 * x * x);
        entry.Ratio = PortableMath.Exp(-step * (x + (0.5 * step)));
        entry.RatioStep = PortableMath.Exp(-step * step);
        entry.Next = first;
        entry.Last = last;

        // Only waves that began before the first sample ever asked for: step them to it.
        for (; entry.Next < firstIndex; entry.Next++)
        {
            entry.Value *= entry.Ratio;
            entry.Ratio *= entry.RatioStep;
        }
    }

    private struct ActiveWave
    {
        public double Value;
        public double Ratio;
        public double RatioStep;
        public long Next;
        public long Last;
    }
}
