// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Sines of up to four multiples of one wandering phase on a grid: exact at anchor samples, turned by constant angles in between.</summary>
/// <remarks>
/// <para>Anchors stand at absolute samples, every 64th or as many as fit into 0.3 s if that is fewer, so that no cut of the stream changes
/// a bit. Between anchors the phase is a straight line; the error against the phase's own curve is at most (anchor distance)² / 8 ×
/// the fastest change of frequency, far under the wander that the curve draws, whatever the rate.</para>
/// <para>One lane per multiple. The lanes are summed in a fixed order, (0 + 2) + (1 + 3), so every machine gives the same bits.</para>
/// </remarks>
public sealed class RotationGroup
{
    /// <summary>Most multiples in a group.</summary>
    public const int Most = 4;

    private const int MostAnchorSamples = 64;
    private const double LongestAnchorSeconds = 0.3;

    private readonly WanderingPhase _phase;
    private readonly double[] _multiples;
    private int _anchorSamples = 1;
    private long _anchor = long.MinValue;
    private long _next;
    private double _endTurns;
    private Vector256<double> _sin;
    private Vector256<double> _cos;
    private Vector256<double> _stepSin;
    private Vector256<double> _stepCos;

    /// <summary>Creates the sines of multiples of a phase.</summary>
    /// <param name="phase">The phase.</param>
    /// <param name="multiples">One to four multiples, for example 1, 2, 3 for the fundamental and two harmonics.</param>
    public RotationGroup(WanderingPhase phase, ReadOnlySpan<double> multiples)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(multiples.Length, Most, nameof(multiples));
        _phase = phase;
        _multiples = multiples.ToArray();
    }

    /// <summary>Adds the sum of sine × sin(multiple × phase) + cosine × cos(multiple × phase) to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    /// <param name="sine">Factors of the sines, one lane for each multiple; 0 for lanes without one.</param>
    /// <param name="cosine">Factors of the cosines, likewise.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, Vector256<double> sine, Vector256<double> cosine)
    {
        int done = 0;
        while (done < buffer.Length)
        {
            MoveTo(grid, firstIndex + done);
            int end = (int)Math.Min(buffer.Length, _anchor + _anchorSamples - firstIndex);
            Vector256<double> sin = _sin;
            Vector256<double> cos = _cos;
            Vector256<double> stepSin = _stepSin;
            Vector256<double> stepCos = _stepCos;
            for (; done < end; done++)
            {
                Vector256<double> lanes = (sine * sin) + (cosine * cos);
                Vector128<double> pairs = lanes.GetLower() + lanes.GetUpper();
                buffer[done] += pairs.GetElement(0) + pairs.GetElement(1);
                Vector256<double> turned = (sin * stepCos) + (cos * stepSin);
                cos = (cos * stepCos) - (sin * stepSin);
                sin = turned;
            }

            _sin = sin;
            _cos = cos;
            _next = firstIndex + done;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public RotationGroup Copy() => (RotationGroup)MemberwiseClone();

    private void MoveTo(in SampleGrid grid, long index)
    {
        _anchorSamples = (int)Math.Max(1, Math.Min(MostAnchorSamples, Math.Floor(LongestAnchorSeconds / grid.StepSeconds)));
        long anchor = index - (index % _anchorSamples);
        if (anchor != _anchor || _next > index)
        {
            Anchor(grid, anchor);
        }

        for (; _next < index; _next++)
        {
            Vector256<double> turned = (_sin * _stepCos) + (_cos * _stepSin);
            _cos = (_cos * _stepCos) - (_sin * _stepSin);
            _sin = turned;
        }
    }

    private void Anchor(in SampleGrid grid, long anchor)
    {
        // Reading on, this anchor's phase is the one the last stretch ended with: the same number, not asked for twice.
        double begin = _anchor == anchor - _anchorSamples ? _endTurns : _phase.Turns(grid.Seconds(anchor));
        _endTurns = _phase.Turns(grid.Seconds(anchor + _anchorSamples));
        double step = (_endTurns - begin) / _anchorSamples;

        // Lanes without a multiple stay zero.
        for (int i = 0; i < _multiples.Length; i++)
        {
            PortableMath.SinCosTurns(_multiples[i] * begin, out double sin, out double cos);
            PortableMath.SinCosTurns(_multiples[i] * step, out double stepSin, out double stepCos);
            _sin = _sin.WithElement(i, sin);
            _cos = _cos.WithElement(i, cos);
            _stepSin = _stepSin.WithElement(i, stepSin);
            _stepCos = _stepCos.WithElement(i, stepCos);
        }

        _anchor = anchor;
        _next = anchor;
    }
}
