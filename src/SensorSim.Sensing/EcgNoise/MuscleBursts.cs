// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>Bursts of muscle noise: muscle noise of its own under envelopes at random times, rms 1 in the middle of a burst.</summary>
/// <remarks>
/// An envelope rises over the first fifth of its burst as 3p² − 2p³ and falls likewise over the last; its mean square is
/// <see cref="SquareShare"/>. Where bursts overlap their powers add: the envelope is the root of the sum of squares.
/// </remarks>
internal sealed class MuscleBursts
{
    /// <summary>Most bursts in a second: the rate of the candidates.</summary>
    public const double MostPerSecond = 0.5;

    private const double Edge = 0.2;

    // Half a second of candidates for 45 s at most: 15 on average at the largest rate and length.
    private const int Most = 96;
    private readonly MuscleFilter _filter;
    private readonly KeyedRandom _noise;
    private readonly CandidateCells _cells;
    private readonly SampleGrid _grid;
    private readonly double _chance;
    private readonly double _meanSeconds;
    private readonly double[] _draws;
    private readonly double[] _samples = new double[MuscleFilter.LongestStretch];
    private readonly double[] _power = new double[MuscleFilter.LongestStretch];
    private readonly Burst[] _bursts = new Burst[Most];
    private int _count;
    private long _nextCell;
    private bool _isStarted;

    /// <summary>Creates bursts.</summary>
    /// <param name="filter">Spectrum.</param>
    /// <param name="noise">Source of the noise.</param>
    /// <param name="events">Source of the times.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="perMin">Bursts in a minute.</param>
    /// <param name="meanSeconds">Mean length [s].</param>
    public MuscleBursts(MuscleFilter filter, KeyedRandom noise, KeyedRandom events, SampleGrid grid, double perMin, double meanSeconds)
    {
        _filter = filter;
        _noise = noise;
        _cells = new CandidateCells(events, MostPerSecond);
        _grid = grid;
        _chance = perMin / 60 / MostPerSecond;
        _meanSeconds = meanSeconds;
        _draws = new double[filter.DrawsFor(MuscleFilter.LongestStretch)];
    }

    private MuscleBursts(MuscleBursts other)
    {
        _filter = other._filter;
        _noise = other._noise;
        _cells = other._cells;
        _grid = other._grid;
        _chance = other._chance;
        _meanSeconds = other._meanSeconds;
        _draws = new double[other._draws.Length];
        _count = other._count;
        _nextCell = other._nextCell;
        _isStarted = other._isStarted;
        other._bursts.CopyTo(_bursts, 0);
    }

    /// <summary>∫ e² over the length of a burst: 1 less both edges, of which each keeps 13/35.</summary>
    public const double SquareShare = 1 - (2 * Edge * (1 - (13.0 / 35)));

    /// <summary>An independent copy with the same state.</summary>
    public MuscleBursts Copy() => new(this);

    /// <summary>Adds the bursts.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="rms">Rms in the middle of a burst.</param>
    public void Add(Span<double> buffer, long firstIndex, double rms)
    {
        if (!_isStarted)
        {
            _isStarted = true;
            _nextCell = (long)Math.Floor(_grid.Seconds(firstIndex) - (1.5 * _meanSeconds));
        }

        double last = _grid.Seconds(firstIndex + buffer.Length - 1);
        while (_nextCell <= last)
        {
            Open(_nextCell++);
        }

        if (_count == 0)
        {
            return;
        }

        for (int done = 0; done < buffer.Length;)
        {
            int length = Math.Min(buffer.Length - done, MuscleFilter.LongestStretch);
            AddStretch(buffer.Slice(done, length), firstIndex + done, rms);
            done += length;
        }

        int kept = 0;
        for (int i = 0; i < _count; i++)
        {
            if (_bursts[i].End > last)
            {
                _bursts[kept++] = _bursts[i];
            }
        }

        _count = kept;
    }

    private void AddStretch(Span<double> target, long firstIndex, double rms)
    {
        double first = _grid.Seconds(firstIndex);
        double last = _grid.Seconds(firstIndex + target.Length - 1);
        _power.AsSpan().Clear();
        bool isAny = false;
        for (int i = 0; i < _count; i++)
        {
            if (_bursts[i].Begin <= last && _bursts[i].End > first)
            {
                AddPower(_bursts[i], firstIndex, target.Length);
                isAny = true;
            }
        }

        if (!isAny || rms == 0)
        {
            return;
        }

        Span<double> samples = _samples.AsSpan(0, target.Length);
        _filter.Make(_noise, firstIndex, samples, _draws);
        foreach (ref Vector256<double> four in MemoryMarshal.Cast<double, Vector256<double>>(_power.AsSpan()))
        {
            four = rms * Vector256.Sqrt(four);
        }

        SpanLanes.AddProduct(target, samples, _power);
    }

    // Square of a burst's envelope: 0 before and after it.
    private void AddPower(Burst burst, long firstIndex, int count)
    {
        double perLength = 1 / (burst.End - burst.Begin);
        Vector256<double> index = Vector256.Create((double)firstIndex) + Vector256.Create(0.0, 1, 2, 3);
        var start = Vector256.Create(_grid.StartSeconds);
        var step = Vector256.Create(_grid.StepSeconds);
        var begin = Vector256.Create(burst.Begin);
        var inverse = Vector256.Create(perLength);
        Span<Vector256<double>> power = MemoryMarshal.Cast<double, Vector256<double>>(_power.AsSpan());
        for (int i = 0; i * Vector256<double>.Count < count; i++)
        {
            Vector256<double> seconds = start + (index * step);
            Vector256<double> p = (seconds - begin) * inverse;
            Vector256<double> inside = Vector256.Min(p, Vector256<double>.One - p) / Edge;
            Vector256<double> edge = Vector256.Max(Vector256<double>.Zero, Vector256.Min(Vector256<double>.One, inside));
            Vector256<double> e = edge * edge * (Vector256.Create(3.0) - (edge + edge));
            power[i] += e * e;
            index += Vector256.Create((double)Vector256<double>.Count);
        }
    }

    private void Open(long cell)
    {
        Span<int> candidates = stackalloc int[CandidateCells.Most];
        int count = _cells.Kept(cell, _chance, candidates);
        foreach (int k in candidates[..count])
        {
            if (_count < Most)
            {
                double begin = _cells.Seconds(cell, k);
                _bursts[_count++] = new Burst(begin, begin + (_meanSeconds * (0.5 + _cells.Uniform(cell, k, 2))));
            }
        }
    }

    private readonly record struct Burst(double Begin, double End);
}
