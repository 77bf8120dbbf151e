// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>Four sines of multiples of one phase on a grid, four samples at a time.</summary>
/// <remarks>
/// <para>Each sine goes on by y(n + 4) = 2 cos(4δ) · y(n) − y(n − 4), one lane for each of four neighbouring samples. Groups of four and
/// anchors stand at absolute samples, so no cut changes a bit. Anchors are 64 samples apart, or as many as fit into 0.3 s; a phase that does
/// not wander needs them only against rounding, every 256 samples. In between the phase is a straight line, as in
/// <see cref="RotationGroup"/>.</para>
/// <para>Three times as fast as that, where all multiples have the same fixed heights.</para>
/// </remarks>
internal sealed class FourSines
{
    /// <summary>Sines in a group.</summary>
    public const int Count = 4;

    private const int Lanes = 4;
    private const int SteadyAnchorSamples = 256;
    private const int MostAnchorSamples = 64;
    private const double LongestAnchorSeconds = 0.3;

    private readonly WanderingPhase _phase;
    private readonly bool _isSteady;
    private readonly double[] _multiples;
    private readonly double[] _sine;
    private readonly double[] _cosine;
    private int _anchorSamples = Lanes;
    private long _anchor = long.MinValue;
    private long _group;
    private double _endTurns;
    private State _state;

    /// <summary>Creates the sines.</summary>
    /// <param name="phase">The phase.</param>
    /// <param name="isSteady">Whether the phase is a straight line throughout.</param>
    /// <param name="multiples">Four multiples of the phase.</param>
    /// <param name="sine">Factors of their sines.</param>
    /// <param name="cosine">Factors of their cosines.</param>
    public FourSines(WanderingPhase phase, bool isSteady, ReadOnlySpan<double> multiples, ReadOnlySpan<double> sine, ReadOnlySpan<double> cosine)
    {
        _phase = phase;
        _isSteady = isSteady;
        _multiples = multiples[..Count].ToArray();
        _sine = sine[..Count].ToArray();
        _cosine = cosine[..Count].ToArray();
    }

    /// <summary>Adds the sum of the sines to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        int done = 0;
        while (done < buffer.Length)
        {
            MoveTo(grid, firstIndex + done);
            int lane = (int)(firstIndex + done - _group);
            int left = (int)Math.Min(buffer.Length - done, _anchor + _anchorSamples - _group);
            if (lane == 0 && left >= Lanes)
            {
                left -= left % Lanes;
                AddGroups(MemoryMarshal.Cast<double, Vector256<double>>(buffer.Slice(done, left)));
                _group += left;
                done += left;
            }
            else
            {
                buffer[done++] += _state.Sum.GetElement(lane);
            }
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public FourSines Copy() => (FourSines)MemberwiseClone();

    private void AddGroups(Span<Vector256<double>> groups)
    {
        // Named one by one: the compiler keeps locals in registers, a structure of this size in memory.
        Vector256<double> now0 = _state.Now0;
        Vector256<double> now1 = _state.Now1;
        Vector256<double> now2 = _state.Now2;
        Vector256<double> now3 = _state.Now3;
        Vector256<double> before0 = _state.Before0;
        Vector256<double> before1 = _state.Before1;
        Vector256<double> before2 = _state.Before2;
        Vector256<double> before3 = _state.Before3;
        Vector256<double> factor0 = _state.Factor0;
        Vector256<double> factor1 = _state.Factor1;
        Vector256<double> factor2 = _state.Factor2;
        Vector256<double> factor3 = _state.Factor3;
        for (int i = 0; i < groups.Length; i++)
        {
            groups[i] += (now0 + now1) + (now2 + now3);
            Vector256<double> next0 = (factor0 * now0) - before0;
            Vector256<double> next1 = (factor1 * now1) - before1;
            Vector256<double> next2 = (factor2 * now2) - before2;
            Vector256<double> next3 = (factor3 * now3) - before3;
            before0 = now0;
            before1 = now1;
            before2 = now2;
            before3 = now3;
            now0 = next0;
            now1 = next1;
            now2 = next2;
            now3 = next3;
        }

        _state.Now0 = now0;
        _state.Now1 = now1;
        _state.Now2 = now2;
        _state.Now3 = now3;
        _state.Before0 = before0;
        _state.Before1 = before1;
        _state.Before2 = before2;
        _state.Before3 = before3;
    }

    private void MoveTo(in SampleGrid grid, long index)
    {
        if (_anchor == long.MinValue)
        {
            double most = _isSteady ? SteadyAnchorSamples : Math.Min(MostAnchorSamples, Math.Floor(LongestAnchorSeconds / grid.StepSeconds));
            _anchorSamples = (int)Math.Max(1, Math.Floor(most / Lanes)) * Lanes;
        }

        long anchor = index - (index % _anchorSamples);
        if (anchor != _anchor || _group > index)
        {
            Anchor(grid, anchor);
        }

        for (; _group + Lanes <= index; _group += Lanes)
        {
            _state.Step();
        }
    }

    private void Anchor(in SampleGrid grid, long anchor)
    {
        // Reading on, this anchor's phase is the one the last stretch ended with: the same number, not asked for twice.
        double begin = _anchor == anchor - _anchorSamples ? _endTurns : _phase.Turns(grid.Seconds(anchor));
        _endTurns = _phase.Turns(grid.Seconds(anchor + _anchorSamples));
        double step = (_endTurns - begin) / _anchorSamples;
        Set(0, begin, step, out _state.Now0, out _state.Before0, out _state.Factor0);
        Set(1, begin, step, out _state.Now1, out _state.Before1, out _state.Factor1);
        Set(2, begin, step, out _state.Now2, out _state.Before2, out _state.Factor2);
        Set(3, begin, step, out _state.Now3, out _state.Before3, out _state.Factor3);
        _anchor = anchor;
        _group = anchor;
    }

    // The sine at samples 0 to 3 and −4 to −1 after the anchor: a·cos(jδ) ± b·sin(jδ), a its value there and b its quadrature.
    private void Set(int i, double begin, double step, out Vector256<double> now, out Vector256<double> before, out Vector256<double> factor)
    {
        PortableMath.SinCosTurns(_multiples[i] * begin, out double sin, out double cos);
        PortableMath.SinCosTurns(_multiples[i] * step, out double s1, out double c1);
        double a = (_sine[i] * sin) + (_cosine[i] * cos);
        double b = (_sine[i] * cos) - (_cosine[i] * sin);
        double s2 = 2 * s1 * c1;
        double c2 = (c1 * c1) - (s1 * s1);
        double s3 = (s2 * c1) + (c2 * s1);
        double c3 = (c2 * c1) - (s2 * s1);
        double s4 = 2 * s2 * c2;
        double c4 = (c2 * c2) - (s2 * s2);
        now = Vector256.Create(a, (a * c1) + (b * s1), (a * c2) + (b * s2), (a * c3) + (b * s3));
        before = Vector256.Create((a * c4) - (b * s4), (a * c3) - (b * s3), (a * c2) - (b * s2), (a * c1) - (b * s1));
        factor = Vector256.Create(2 * c4);
    }

    /// <summary>Four samples of each sine, and the four before them.</summary>
    private struct State
    {
        public Vector256<double> Now0;
        public Vector256<double> Now1;
        public Vector256<double> Now2;
        public Vector256<double> Now3;
        public Vector256<double> Before0;
        public Vector256<double> Before1;
        public Vector256<double> Before2;
        public Vector256<double> Before3;
        public Vector256<double> Factor0;
        public Vector256<double> Factor1;
        public Vector256<double> Factor2;
        public Vector256<double> Factor3;

        public readonly Vector256<double> Sum => (Now0 + Now1) + (Now2 + Now3);

        public void Step()
        {
            Vector256<double> next0 = (Factor0 * Now0) - Before0;
            Vector256<double> next1 = (Factor1 * Now1) - Before1;
            Vector256<double> next2 = (Factor2 * Now2) - Before2;
            Vector256<double> next3 = (Factor3 * Now3) - Before3;
            Before0 = Now0;
            Before1 = Now1;
            Before2 = Now2;
            Before3 = Now3;
            Now0 = next0;
            Now1 = next1;
            Now2 = next2;
            Now3 = next3;
        }
    }
}
