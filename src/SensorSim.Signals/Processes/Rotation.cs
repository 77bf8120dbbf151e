// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Sines of a wandering phase on a grid: exact at anchor samples, turned by a constant angle in between.</summary>
/// <remarks>
/// Anchors stand at absolute samples, every 64th or as many as fit into 0.3 s if that is fewer, so that no cut of the stream changes
/// a bit. Between anchors the phase is a straight line; the error against the phase's own curve is at most (anchor distance)² / 8 ×
/// the fastest change of frequency, far under the wander that the curve draws, whatever the rate.
/// </remarks>
public sealed class Rotation
{
    /// <summary>Most samples from one anchor to the next.</summary>
    public const int MostAnchorSamples = 64;

    /// <summary>Longest time from one anchor to the next [s].</summary>
    public const double LongestAnchorSeconds = 0.3;

    private readonly WanderingPhase _phase;
    private readonly double _multiple;
    private int _anchorSamples = 1;
    private long _anchor = long.MinValue;
    private long _next;
    private double _endTurns;
    private double _sin;
    private double _cos;
    private double _stepSin;
    private double _stepCos;

    /// <summary>Creates the sine of a multiple of a phase.</summary>
    /// <param name="phase">The phase.</param>
    /// <param name="multiple">1 for the fundamental, 2 for the second harmonic, 0.5 for the half.</param>
    public Rotation(WanderingPhase phase, double multiple)
    {
        _phase = phase;
        _multiple = multiple;
    }

    /// <summary>Adds amplitude × sin(phase) + quadrature × cos(phase) to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    /// <param name="amplitude">Factor of the sine.</param>
    /// <param name="quadrature">Factor of the cosine.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, double amplitude, double quadrature)
    {
        int done = 0;
        while (done < buffer.Length)
        {
            long index = firstIndex + done;
            MoveTo(grid, index);
            int end = (int)Math.Min(buffer.Length, _anchor + _anchorSamples - firstIndex);
            double sin = _sin;
            double cos = _cos;
            double stepSin = _stepSin;
            double stepCos = _stepCos;
            for (; done < end; done++)
            {
                buffer[done] += (amplitude * sin) + (quadrature * cos);
                double turned = (sin * stepCos) + (cos * stepSin);
                cos = (cos * stepCos) - (sin * stepSin);
                sin = turned;
            }

            _sin = sin;
            _cos = cos;
            _next = firstIndex + done;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public Rotation Copy() => (Rotation)MemberwiseClone();

    /// <summary>Samples from one anchor to the next on a grid.</summary>
    /// <param name="grid">Sampling instants.</param>
    public static int AnchorSamples(in SampleGrid grid) =>
        (int)Math.Max(1, Math.Min(MostAnchorSamples, Math.Floor(LongestAnchorSeconds / grid.StepSeconds)));

    private void MoveTo(in SampleGrid grid, long index)
    {
        _anchorSamples = AnchorSamples(grid);
        long anchor = index - (index % _anchorSamples);
        if (anchor != _anchor || _next > index)
        {
            // Reading on, this anchor's phase is the one the last stretch ended with: the same number, not asked for twice.
            double begin = _anchor == anchor - _anchorSamples ? _endTurns : _multiple * _phase.Turns(grid.Seconds(anchor));
            _endTurns = _multiple * _phase.Turns(grid.Seconds(anchor + _anchorSamples));
            PortableMath.SinCosTurns(begin, out _sin, out _cos);
            PortableMath.SinCosTurns((_endTurns - begin) / _anchorSamples, out _stepSin, out _stepCos);
            _anchor = anchor;
            _next = anchor;
        }

        for (; _next < index; _next++)
        {
            double turned = (_sin * _stepCos) + (_cos * _stepSin);
            _cos = (_cos * _stepCos) - (_sin * _stepSin);
            _sin = turned;
        }
    }
}
