// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Pulse;

/// <summary>Draws the arterial pulse on a grid of samples: no exponential in the loop.</summary>
/// <remarks>
/// A component is (x·e^(1−x))^n: x grows by a constant, e^(1−x) is multiplied by one. Each recurrence starts at the component's
/// own first sample and components are summed in order of beat, so no cut of the stream changes a bit.
/// </remarks>
public sealed class PulseGrid
{
    private const int Capacity = 128;

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
    public PulseGrid(BodyModel body, SampleGrid grid)
    {
        ArgumentNullException.ThrowIfNull(body);
        _body = body;
        _grid = grid;
        _piece = (int)Math.Max(1, Math.Min(1 << 20, Math.Floor(PieceSeconds / grid.StepSeconds)));
        _nextBeat = BodyModel.FirstBeatId;
    }

    private PulseGrid(PulseGrid other, BodyModel body)
    {
        _body = body;
        _grid = other._grid;
        _piece = other._piece;
        _count = other._count;
        _nextBeat = other._nextBeat;
        Array.Copy(other._active, _active, _count);
    }

    /// <summary>Adds the arterial pulse [pulse units] to samples; reads forward only.</summary>
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
    public PulseGrid Copy(BodyModel body) => new(this, body);

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
                Draw(buffer[from..to], ref wave);
            }

            if (wave.Next <= wave.Last)
            {
                _active[kept++] = wave;
            }
        }

        _count = kept;
    }

    private static void Draw(Span<double> buffer, ref ActiveWave wave)
    {
        double e = wave.Exponential;
        double ratio = wave.Ratio;
        double height = wave.Height;
        double firstX = wave.FirstX;
        double stepX = wave.StepX;
        double k = wave.Next - wave.First;

        // One loop for each order: a test inside would cost as much as the wave.
        switch (wave.Thirds)
        {
            case 1:
                for (int i = 0; i < buffer.Length; i++)
                {
                    double h = (firstX + (k * stepX)) * e;
                    buffer[i] += height * (h * h * h);
                    e *= ratio;
                    k++;
                }

                break;
            case 2:
                for (int i = 0; i < buffer.Length; i++)
                {
                    double h = (firstX + (k * stepX)) * e;
                    double cube = h * h * h;
                    buffer[i] += height * (cube * cube);
                    e *= ratio;
                    k++;
                }

                break;
            default:
                for (int i = 0; i < buffer.Length; i++)
                {
                    double h = (firstX + (k * stepX)) * e;
                    double cube = h * h * h;
                    buffer[i] += height * (cube * cube * cube);
                    e *= ratio;
                    k++;
                }

                break;
        }

        wave.Exponential = e;
        wave.Next += buffer.Length;
    }

    private void Activate(double untilSeconds, long firstIndex)
    {
        while (_body.TryBeat(_nextBeat, untilSeconds, out BeatView beat))
        {
            for (int i = 0; i < PulseBeat.Count; i++)
            {
                Start(beat.Pulse[i], firstIndex);
            }

            _nextBeat++;
        }
    }

    private void Start(in PulseWave wave, long firstIndex)
    {
        long first = _grid.FirstAtOrAfter(wave.StartSeconds);
        long last = _grid.FirstAtOrAfter(wave.CutSeconds) - 1;
        if (wave.Height == 0 || last < firstIndex)
        {
            return;
        }

        ref ActiveWave entry = ref _active[_count++];
        entry.Thirds = wave.Thirds;
        entry.Height = wave.Height;
        entry.StepX = _grid.StepSeconds / wave.ToPeakSeconds;
        entry.FirstX = (_grid.Seconds(first) - wave.StartSeconds) / wave.ToPeakSeconds;
        entry.Exponential = PortableMath.Exp(1 - entry.FirstX);
        entry.Ratio = PortableMath.Exp(-entry.StepX);
        entry.First = first;
        entry.Next = first;
        entry.Last = last;

        // Only components that began before the first sample ever asked for: step them to it.
        for (; entry.Next < firstIndex; entry.Next++)
        {
            entry.Exponential *= entry.Ratio;
        }
    }

    private struct ActiveWave
    {
        public double FirstX;
        public double StepX;
        public double Exponential;
        public double Ratio;
        public double Height;
        public int Thirds;
        public long First;
        public long Next;
        public long Last;
    }
}
