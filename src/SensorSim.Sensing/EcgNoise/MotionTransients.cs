// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>A train of transients of electrode motion with an rms of 1 in the reference gait, drawn on a grid, forward only.</summary>
/// <remarks>
/// Candidates at a fixed rate, thinned by the rate at their own begin. Each transient runs by recurrences from its own first sample on
/// (<see cref="RunningTransient"/>), in the order of candidates whatever the cuts are.
/// </remarks>
internal sealed class MotionTransients
{
    // At most eight a second for some two seconds: 16 on average, more than 96 never.
    private const int Most = 96;
    private readonly MotionKind _kind;
    private readonly MotionDrive _drive;
    private readonly CandidateCells _cells;
    private readonly SampleGrid _grid;
    private readonly double _peak;
    private readonly double _steady;
    private readonly RunningTransient[] _running = new RunningTransient[Most];
    private int _count;
    private long _nextCell;
    private bool _isStarted;

    /// <summary>Creates a train.</summary>
    /// <param name="kind">Forms and durations.</param>
    /// <param name="drive">How often they come; not off.</param>
    /// <param name="random">Its own source.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="power">Power in the reference gait.</param>
    public MotionTransients(MotionKind kind, MotionDrive drive, KeyedRandom random, SampleGrid grid, double power)
    {
        _kind = kind;
        _drive = drive;
        _cells = new CandidateCells(random, MotionDrive.MostPerSecond);
        _grid = grid;
        _peak = Math.Sqrt(power) * kind.PeakOfRms(drive.ReferencePerSecond);
        _steady = drive.IsConstant ? drive.PerSecond(0) : -1;
    }

    private MotionTransients(MotionTransients other)
    {
        _kind = other._kind;
        _drive = other._drive;
        _cells = other._cells;
        _grid = other._grid;
        _peak = other._peak;
        _steady = other._steady;
        _count = other._count;
        _nextCell = other._nextCell;
        _isStarted = other._isStarted;
        other._running.CopyTo(_running, 0);
    }

    /// <summary>An independent copy with the same state.</summary>
    public MotionTransients Copy() => new(this);

    /// <summary>Adds the train.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="scale">Rms in the reference gait.</param>
    public void Add(Span<double> buffer, long firstIndex, double scale)
    {
        if (!_isStarted)
        {
            _isStarted = true;
            _nextCell = (long)Math.Floor(_grid.Seconds(firstIndex) - _kind.ReachSeconds);
        }

        double last = _grid.Seconds(firstIndex + buffer.Length - 1);
        while (_nextCell <= last)
        {
            Open(_nextCell++, firstIndex);
        }

        int kept = 0;
        for (int i = 0; i < _count; i++)
        {
            ref RunningTransient one = ref _running[i];
            int from = (int)Math.Max(0, one.First - firstIndex);
            int to = (int)Math.Min(buffer.Length, one.End - firstIndex);
            if (from < to)
            {
                one.Draw(buffer[from..to], scale);
            }

            if (one.End > firstIndex + buffer.Length)
            {
                // They are large: most keep their place.
                if (kept < i)
                {
                    _running[kept] = one;
                }

                kept++;
            }
        }

        _count = kept;
    }

    private void Open(long cell, long firstIndex)
    {
        // Where the rate changes it is asked for at each candidate's own begin.
        Span<int> candidates = stackalloc int[CandidateCells.Most];
        int count = _cells.Kept(cell, _steady >= 0 ? _steady / _cells.MeanPerSecond : 1, candidates);
        Span<double> draws = stackalloc double[CandidateCells.Draws];
        foreach (int k in candidates[..count])
        {
            _cells.Fill(cell, k, draws);
            double begin = cell + draws[0];
            bool isKept = _steady >= 0 || _cells.Uniform(cell, k, 1) < _drive.PerSecond(begin) / _cells.MeanPerSecond;
            if (isKept && _count < Most)
            {
                Start(draws, begin, firstIndex);
            }
        }
    }

    private void Start(ReadOnlySpan<double> draws, double begin, long firstIndex)
    {
        TransientShape shape = _kind.Draw(draws[3], draws[2], out double duration);
        double width = duration / TransientShapes.WidthsOfDuration(shape);
        double from = TransientShapes.Begin(shape);
        double to = TransientShapes.End(shape);

        // Before the first sample of all only where a stream begins.
        long first = Math.Max(firstIndex, _grid.FirstAtOrAfter(begin));
        long end = _grid.FirstAtOrAfter(begin + ((to - from) * width));
        if (first >= end)
        {
            return;
        }

        double x = from + ((_grid.Seconds(first) - begin) / width);
        _running[_count++] = new RunningTransient(
            shape, first, end, x, _grid.StepSeconds / width, _peak * MotionKind.Size(draws[4]) * TransientShapes.Scale(shape));
    }
}
