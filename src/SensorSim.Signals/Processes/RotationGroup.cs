// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Sines of up to four multiples of one wandering phase on a grid: exact at anchor samples, turned by constant angles in between.</summary>
/// <remarks>
/// <para>Anchors stand at absolute samples, every 64th or as many as fit into 0.3 s if that is fewer (a multiple of four, at least four), so
/// that no cut of the stream changes a bit. Between anchors the phase is a straight line; the error against the phase's own curve is at most
/// (anchor distance)² / 8 × the fastest change of frequency, far under the wander that the curve draws, whatever the rate.</para>
/// <para>The lanes are four neighbouring samples, counted from the anchor, and turn together by four samples; a cut inside of them takes the
/// lanes that it needs. Multiples are added one after the other, in their order, so every machine gives the same bits.</para>
/// </remarks>
public sealed class RotationGroup
{
    /// <summary>Most multiples in a group.</summary>
    public const int Most = 4;

    private const int Lanes = 4;
    private const int MostAnchorSamples = 64;
    private const double LongestAnchorSeconds = 0.3;

    private readonly WanderingPhase _phase;
    private readonly Line[] _lines;
    private long _anchor = long.MinValue;
    private double _beginTurns;
    private double _endTurns;
    private double _stepTurns;

    /// <summary>Creates the sines of multiples of a phase.</summary>
    /// <param name="phase">The phase.</param>
    /// <param name="multiples">One to four multiples, for example 1, 2, 3 for the fundamental and two harmonics.</param>
    public RotationGroup(WanderingPhase phase, ReadOnlySpan<double> multiples)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(multiples.Length, Most, nameof(multiples));
        _phase = phase;
        _lines = new Line[multiples.Length];
        for (int i = 0; i < _lines.Length; i++)
        {
            _lines[i] = new Line { Multiple = multiples[i], Anchor = long.MinValue };
        }
    }

    private RotationGroup(RotationGroup other)
    {
        _phase = other._phase;
        _lines = (Line[])other._lines.Clone();
        _anchor = other._anchor;
        _beginTurns = other._beginTurns;
        _endTurns = other._endTurns;
        _stepTurns = other._stepTurns;
    }

    /// <summary>Adds the sum of sine × sin(multiple × phase) + cosine × cos(multiple × phase) to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants; the same in every call.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    /// <param name="sine">Factors of the sines, one lane for each multiple; 0 for lanes without one.</param>
    /// <param name="cosine">Factors of the cosines, likewise.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, Vector256<double> sine, Vector256<double> cosine)
    {
        int anchorSamples = AnchorSamples(grid.StepSeconds);
        for (int done = 0; done < buffer.Length;)
        {
            long index = firstIndex + done;
            int place = (int)(index % anchorSamples);
            MoveTo(grid, index - place, anchorSamples);
            int count = Math.Min(buffer.Length - done, anchorSamples - place);
            for (int i = 0; i < _lines.Length; i++)
            {
                double s = sine.GetElement(i);
                double c = cosine.GetElement(i);
                if (s != 0 || c != 0)
                {
                    Add(ref _lines[i], buffer.Slice(done, count), place, Vector256.Create(s), Vector256.Create(c));
                }
            }

            done += count;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public RotationGroup Copy() => new(this);

    private static int AnchorSamples(double stepSeconds) =>
        (int)Math.Max(1, Math.Min(MostAnchorSamples / Lanes, Math.Floor(LongestAnchorSeconds / stepSeconds / Lanes))) * Lanes;

    private void MoveTo(in SampleGrid grid, long anchor, int anchorSamples)
    {
        if (anchor == _anchor)
        {
            return;
        }

        // Reading on, this anchor's phase is the one the last stretch ended with: the same number, not asked for twice.
        _beginTurns = _anchor == anchor - anchorSamples ? _endTurns : _phase.Turns(grid.Seconds(anchor));
        _endTurns = _phase.Turns(grid.Seconds(anchor + anchorSamples));
        _stepTurns = (_endTurns - _beginTurns) / anchorSamples;
        _anchor = anchor;
    }

    // Adds a stretch inside of one anchor's samples, from a place after the anchor on.
    private void Add(ref Line line, Span<double> buffer, int place, Vector256<double> sine, Vector256<double> cosine)
    {
        int group = place / Lanes;
        if (line.Anchor != _anchor || line.Group > group)
        {
            Start(ref line);
        }

        Vector256<double> sin = line.Sin;
        Vector256<double> cos = line.Cos;
        var stepSin = Vector256.Create(line.StepSin);
        var stepCos = Vector256.Create(line.StepCos);
        int at = line.Group;
        for (; at < group; at++)
        {
            Turn(ref sin, ref cos, stepSin, stepCos);
        }

        int done = 0;
        int skipped = place - (group * Lanes);
        if (skipped != 0)
        {
            Vector256<double> value = (sine * sin) + (cosine * cos);
            for (int lane = skipped; lane < Lanes && done < buffer.Length; lane++)
            {
                buffer[done++] += value.GetElement(lane);
            }

            if (skipped + done == Lanes)
            {
                Turn(ref sin, ref cos, stepSin, stepCos);
                at++;
            }
        }

        if (skipped == 0 || skipped + done == Lanes)
        {
            Span<Vector256<double>> whole = MemoryMarshal.Cast<double, Vector256<double>>(buffer[done..]);
            for (int i = 0; i < whole.Length; i++)
            {
                whole[i] += (sine * sin) + (cosine * cos);
                Turn(ref sin, ref cos, stepSin, stepCos);
            }

            at += whole.Length;
            done += whole.Length * Lanes;
            Vector256<double> rest = (sine * sin) + (cosine * cos);
            for (int lane = 0; done < buffer.Length; lane++)
            {
                buffer[done++] += rest.GetElement(lane);
            }
        }

        line.Sin = sin;
        line.Cos = cos;
        line.Group = at;
    }

    private void Start(ref Line line)
    {
        double step = line.Multiple * _stepTurns;
        Vector256<double> turns = Vector256.Create(line.Multiple * _beginTurns) + (Vector256.Create(0.0, 1, 2, 3) * step);
        PortableMath.SinCosTurns(turns, out line.Sin, out line.Cos);
        PortableMath.SinCosTurns(Lanes * step, out line.StepSin, out line.StepCos);
        line.Anchor = _anchor;
        line.Group = 0;
    }

    private static void Turn(ref Vector256<double> sin, ref Vector256<double> cos, Vector256<double> stepSin, Vector256<double> stepCos)
    {
        Vector256<double> turned = (sin * stepCos) + (cos * stepSin);
        cos = (cos * stepCos) - (sin * stepSin);
        sin = turned;
    }

    // One multiple: sines and cosines of the four samples of a group, counted from the anchor.
    private struct Line
    {
        public double Multiple;
        public long Anchor;
        public int Group;
        public double StepSin;
        public double StepCos;
        public Vector256<double> Sin;
        public Vector256<double> Cos;
    }
}
