// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>Draws <see cref="ActivityWave"/>s on a grid. No cut changes a bit: what a sample goes through depends on its own time only.</summary>
internal sealed class ActivityGrid
{
    private readonly ActivityEnvelope _envelope;
    private readonly FourSines[] _sines;
    private readonly double[] _scratch = new double[256];

    public ActivityGrid(ActivityWave wave)
    {
        _envelope = wave.Envelope;
        _sines = wave.CreateSines();
    }

    private ActivityGrid(ActivityGrid other)
    {
        _envelope = other._envelope;
        _sines = new FourSines[other._sines.Length];
        for (int i = 0; i < _sines.Length; i++)
        {
            _sines[i] = other._sines[i].Copy();
        }
    }

    /// <summary>Adds the waves [mV] to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        long end = firstIndex + buffer.Length;
        double endSeconds = grid.Seconds(end);
        for (int i = _envelope.FirstEndingAfter(grid.Seconds(firstIndex)); i < _envelope.Count && _envelope.From(i) < endSeconds; i++)
        {
            double from = _envelope.From(i);
            double to = _envelope.To(i);
            const double Edge = ActivityEnvelope.EdgeSeconds;
            int begun = Clip(grid, firstIndex, end, from);
            int ended = Clip(grid, firstIndex, end, to);
            if (_envelope.HasDecay || to - from < 2 * Edge)
            {
                AddShaped(buffer, begun, ended, grid, firstIndex);
                continue;
            }

            int risen = Clip(grid, firstIndex, end, from + Edge);
            int falling = Clip(grid, firstIndex, end, to - Edge);
            AddShaped(buffer, begun, risen, grid, firstIndex);
            AddSines(buffer[risen..falling], grid, firstIndex + risen);
            AddShaped(buffer, falling, ended, grid, firstIndex);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public ActivityGrid Copy() => new(this);

    // The first sample at or after a time, held inside the buffer.
    private static int Clip(in SampleGrid grid, long first, long end, double seconds) =>
        seconds <= grid.Seconds(first) ? 0
        : seconds >= grid.Seconds(end) ? (int)(end - first)
        : (int)(grid.FirstAtOrAfter(seconds) - first);

    private void AddShaped(Span<double> buffer, int from, int to, in SampleGrid grid, long firstIndex)
    {
        for (int done = from; done < to; done += _scratch.Length)
        {
            Span<double> piece = _scratch.AsSpan(0, Math.Min(_scratch.Length, to - done));
            piece.Clear();
            AddSines(piece, grid, firstIndex + done);
            for (int i = 0; i < piece.Length; i++)
            {
                buffer[done + i] += piece[i] * _envelope.Value(grid.Seconds(firstIndex + done + i), out _, out _);
            }
        }
    }

    private void AddSines(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        foreach (FourSines four in _sines)
        {
            four.Add(buffer, grid, firstIndex);
        }
    }
}
