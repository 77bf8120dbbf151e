// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Sines of a wandering phase and its next two multiples on a grid: exact at anchor samples, turned by constant angles in between.</summary>
/// <remarks>
/// <para>Anchors stand at absolute samples, 64 apart or half of that again and again until they are no more than 0.65 s apart (but eight
/// samples), and all samples between two of them are made at once: no cut of the stream changes a bit. Between anchors the phase is a straight
/// line; the error against the phase's own curve is at most (anchor distance)² / 8 × the fastest change of frequency, far under the wander
/// that the curve draws.</para>
/// <para>Only the first multiple is turned; the others are polynomials of its sine and cosine (<see cref="HarmonicSum"/>). Others who stand on
/// instants of the same step may share a group: a constant angle lies between them.</para>
/// </remarks>
public sealed class RotationGroup
{
    /// <summary>Most multiples in a group.</summary>
    public const int Most = 3;

    private const int MostAnchorSamples = 64;
    private const int LeastAnchorSamples = 8;
    private const double LongestAnchorSeconds = 0.65;

    private readonly WanderingPhase _phase;
    private readonly double _multiple;
    private readonly int _keptSamples;
    private SampleGrid _grid;
    private int _shift;
    private long[] _anchors = [];
    private double[] _stepTurns = [];
    private double[] _sines = [];
    private double[] _cosines = [];
    private long _endAnchor = long.MinValue;
    private double _endTurns;

    /// <summary>Creates the sines of multiples of a phase.</summary>
    /// <param name="phase">The phase.</param>
    /// <param name="multiples">One to three multiples: any number, its double, its triple.</param>
    public RotationGroup(WanderingPhase phase, ReadOnlySpan<double> multiples)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(multiples.Length, Most, nameof(multiples));
        for (int i = 0; i < multiples.Length; i++)
        {
            ArgumentOutOfRangeException.ThrowIfNotEqual(multiples[i], (i + 1) * multiples[0], nameof(multiples));
        }

        _phase = phase;
        _multiple = multiples[0];
    }

    /// <summary>Creates the sines of multiples of a phase for several grids of the same step.</summary>
    /// <param name="phase">The phase.</param>
    /// <param name="multiples">One to three multiples: any number, its double, its triple.</param>
    /// <param name="grid">The grid whose samples are anchors.</param>
    /// <param name="keptSamples">How far one who asks may lie behind another without anything being made twice.</param>
    public RotationGroup(WanderingPhase phase, ReadOnlySpan<double> multiples, in SampleGrid grid, int keptSamples)
        : this(phase, multiples)
    {
        _keptSamples = keptSamples;
        _grid = grid;
    }

    private RotationGroup(RotationGroup other)
    {
        _phase = other._phase;
        _multiple = other._multiple;
        _keptSamples = other._keptSamples;
        _grid = other._grid;
        if (other._anchors.Length > 0)
        {
            // What was made can be made again, with the same bits.
            Begin(other._grid);
        }
    }

    /// <summary>Adds the sum of sine × sin(multiple × phase) + cosine × cos(multiple × phase) to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants; of the same step in every call.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    /// <param name="sine">Factors of the sines, one lane for each multiple; 0 for lanes without one.</param>
    /// <param name="cosine">Factors of the cosines, likewise.</param>
    /// <param name="level">Added to each sample on top.</param>
    public void Add(
        Span<double> buffer, in SampleGrid grid, long firstIndex, Vector256<double> sine, Vector256<double> cosine, double level = 0)
    {
        if (_anchors.Length == 0)
        {
            // Room for what is kept is made with the first sample: of the groups that slots come with, most give way to one that they share.
            Begin(_keptSamples == 0 ? grid : _grid);
        }

        double late = grid.StartSeconds - _grid.StartSeconds;
        int samples = 1 << _shift;
        var sum = new HarmonicSum(sine, cosine, level);
        for (int done = 0; done < buffer.Length;)
        {
            long index = firstIndex + done;
            int block = Block(index >> _shift);
            int place = (int)(index & (samples - 1));
            int count = Math.Min(buffer.Length - done, samples - place);
            if (late != 0)
            {
                sum = HarmonicSum.Turned(sine, cosine, level, late / _grid.StepSeconds * _stepTurns[block]);
            }

            int from = (block << _shift) + place;
            sum.Add(buffer.Slice(done, count), _sines.AsSpan(from, count), _cosines.AsSpan(from, count));
            done += count;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public RotationGroup Copy() => new(this);

    private void Begin(in SampleGrid grid)
    {
        int samples = MostAnchorSamples;
        while (samples > LeastAnchorSamples && samples * grid.StepSeconds > LongestAnchorSeconds)
        {
            samples /= 2;
        }

        _grid = grid;
        _shift = BitOperations.Log2((uint)samples);

        // What is kept may begin and end within a block.
        int blocks = _keptSamples == 0 ? 1 : (int)BitOperations.RoundUpToPowerOf2((uint)((_keptSamples / samples) + 2));
        _anchors = new long[blocks];
        Array.Fill(_anchors, long.MinValue);
        _stepTurns = new double[blocks];
        _sines = new double[blocks * samples];
        _cosines = new double[blocks * samples];
    }

    // Where the samples after an anchor stand.
    private int Block(long anchor)
    {
        int block = (int)anchor & (_anchors.Length - 1);
        if (_anchors[block] != anchor)
        {
            Make(block, anchor);
        }

        return block;
    }

    private void Make(int block, long anchor)
    {
        int samples = 1 << _shift;

        // Reading on, this anchor's phase is the one the last stretch ended with: the same number, not asked for twice.
        double begin = _endAnchor == anchor ? _endTurns : _phase.Turns(_grid.Seconds(anchor << _shift));
        _endAnchor = anchor + 1;
        _endTurns = _phase.Turns(_grid.Seconds(_endAnchor << _shift));
        double step = _multiple * ((_endTurns - begin) / samples);
        _stepTurns[block] = step;
        _anchors[block] = anchor;
        Span<double> sines = _sines.AsSpan(block << _shift, samples);
        Turn(sines, _cosines.AsSpan(block << _shift, samples), _multiple * begin, step);
    }

    // The first four samples, then what there is turned on by its own length, again and again: nothing waits for long.
    private static void Turn(Span<double> sines, Span<double> cosines, double begin, double step)
    {
        const int Lanes = 4;
        PortableMath.SinCosTurns(
            Vector256.Create(begin) + (Vector256.Create(0.0, 1, 2, 3) * step), out Vector256<double> sin, out Vector256<double> cos);
        PortableMath.SinCosTurns(Vector256.Create(4.0, 8, 16, 32) * step, out Vector256<double> turnSin, out Vector256<double> turnCos);
        ref double s = ref MemoryMarshal.GetReference(sines);
        ref double c = ref MemoryMarshal.GetReference(cosines);
        sin.StoreUnsafe(ref s);
        cos.StoreUnsafe(ref c);
        for (int there = Lanes, turn = 0; there < sines.Length; there *= 2, turn++)
        {
            var bySin = Vector256.Create(turnSin.GetElement(turn));
            var byCos = Vector256.Create(turnCos.GetElement(turn));
            nuint end = (nuint)(uint)there;
            for (nuint i = 0; i < end; i += Lanes)
            {
                sin = Vector256.LoadUnsafe(ref s, i);
                cos = Vector256.LoadUnsafe(ref c, i);
                ((sin * byCos) + (cos * bySin)).StoreUnsafe(ref s, end + i);
                ((cos * byCos) - (sin * bySin)).StoreUnsafe(ref c, end + i);
            }
        }
    }
}
