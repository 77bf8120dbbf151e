// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>A transient of electrode motion on a grid, four samples at a time by recurrences.</summary>
/// <remarks>
/// Lane j of group k is the transient's own first sample + 4k + j, whatever the cut: where a cut falls into a group, the group is kept and the rest
/// of its lanes is drawn by the next call. The place in the transient is counted from its first sample: a sum of steps from anywhere else would differ in
/// the last bit.
/// </remarks>
internal struct RunningTransient
{
    private const int Lanes = 4;
    private readonly TransientShape _shape;
    private readonly double _x;
    private readonly double _step;
    private readonly double _size;

    // What a group multiplies the first factor by (not of three phases), and the second one.
    private readonly double _firstTurn;
    private readonly double _secondTurn;

    // The exponential; of a rise the other exponential, of three phases the ratio of a group to the next one.
    private Vector256<double> _first;
    private Vector256<double> _second;

    // Places of the present group, counted from the first sample.
    private Vector256<double> _places = Vector256.Create(0.0, 1, 2, 3);
    private int _drawn;

    /// <summary>Creates a transient.</summary>
    /// <param name="shape">Its form.</param>
    /// <param name="first">Its first sample.</param>
    /// <param name="end">First sample after it.</param>
    /// <param name="x">Where its first sample lies [widths].</param>
    /// <param name="step">From one sample to the next [widths].</param>
    /// <param name="size">Factor of the form.</param>
    public RunningTransient(TransientShape shape, long first, long end, double x, double step, double size)
    {
        _shape = shape;
        First = first;
        End = end;
        _x = x;
        _step = step;
        _size = size;
        if (shape == TransientShape.ThreePhase)
        {
            // As an ECG wave: from lane j of a group to that of the next one by r⁴ · q^(4j + 6), which grows by q¹⁶ a group.
            Vector256<double> e = ExpLanes.Exp(Vector256.Create(-0.5 * x * x, -step * (x + (0.5 * step)), -step * step, 0));
            double g = e.GetElement(0);
            double r = e.GetElement(1);
            double q = e.GetElement(2);
            double g1 = g * r;
            double r1 = r * q;
            double g2 = g1 * r1;
            double r2 = r1 * q;
            _first = Vector256.Create(g, g1, g2, g2 * r2);
            double fourth = q * q * (q * q);
            double ratio = r * r1 * (r2 * (r2 * q));
            _second = Vector256.Create(ratio, ratio * fourth, ratio * (fourth * fourth), ratio * (fourth * fourth * fourth));
            _secondTurn = fourth * fourth * (fourth * fourth);
        }
        else
        {
            const double PerRise = 1 / TransientShapes.Rise;
            Vector256<double> e = ExpLanes.Exp(Vector256.Create(-x, -step, -x * PerRise, -step * PerRise));
            _first = Decaying(e.GetElement(0), e.GetElement(1), out _firstTurn);
            _second = Decaying(e.GetElement(2), e.GetElement(3), out _secondTurn);
        }
    }

    /// <summary>Its first sample.</summary>
    public long First { get; }

    /// <summary>First sample after it.</summary>
    public long End { get; }

    /// <summary>Adds the transient to its next samples.</summary>
    /// <param name="target">The samples.</param>
    /// <param name="scale">Factor on top of the transient's own.</param>
    public void Draw(Span<double> target, double scale)
    {
        double size = scale * _size;
        int done = _drawn == 0 ? 0 : DrawLanes(target, size);
        Span<Vector256<double>> groups = MemoryMarshal.Cast<double, Vector256<double>>(target[done..]);
        switch (_shape)
        {
            case TransientShape.Biphasic:
                DrawBiphasic(groups, size);
                break;
            case TransientShape.Exponential:
                DrawExponential(groups, size);
                break;
            default:
                DrawThreePhase(groups, size);
                break;
        }

        done += groups.Length * Lanes;
        if (done < target.Length)
        {
            DrawLanes(target[done..], size);
        }
    }

    private static Vector256<double> Decaying(double value, double ratio, out double turn)
    {
        double square = ratio * ratio;
        turn = square * square;
        return value * Vector256.Create(1, ratio, square, square * ratio);
    }

    private static Vector256<double> Biphasic(Vector256<double> p, Vector256<double> e) => p * p * (Vector256.Create(3.0) - p) * e;

    private static Vector256<double> Exponential(Vector256<double> e, Vector256<double> r)
    {
        Vector256<double> rest = Vector256<double>.One - r;
        return rest * rest * rest * e;
    }

    private static Vector256<double> ThreePhase(Vector256<double> p, Vector256<double> g) => (Vector256<double>.One - (p * p)) * g;

    private readonly Vector256<double> Places() => Vector256.Create(_x) + (_places * Vector256.Create(_step));

    // Each shape has a loop of its own, so that what it needs stays in registers.
    private void DrawBiphasic(Span<Vector256<double>> groups, double size)
    {
        // All in locals that are made once: in the loop they would be made each time.
        Vector256<double> e = _first;
        Vector256<double> places = _places;
        var x = Vector256.Create(_x);
        var step = Vector256.Create(_step);
        var turn = Vector256.Create(_firstTurn);
        var sizes = Vector256.Create(size);
        var four = Vector256.Create((double)Lanes);
        for (int i = 0; i < groups.Length; i++)
        {
            groups[i] += sizes * Biphasic(x + (places * step), e);
            e *= turn;
            places += four;
        }

        _first = e;
        _places = places;
    }

    private void DrawExponential(Span<Vector256<double>> groups, double size)
    {
        Vector256<double> e = _first;
        Vector256<double> r = _second;
        var turn = Vector256.Create(_firstTurn);
        var secondTurn = Vector256.Create(_secondTurn);
        var sizes = Vector256.Create(size);
        for (int i = 0; i < groups.Length; i++)
        {
            groups[i] += sizes * Exponential(e, r);
            e *= turn;
            r *= secondTurn;
        }

        _first = e;
        _second = r;
    }

    private void DrawThreePhase(Span<Vector256<double>> groups, double size)
    {
        Vector256<double> g = _first;
        Vector256<double> ratio = _second;
        Vector256<double> places = _places;
        var x = Vector256.Create(_x);
        var step = Vector256.Create(_step);
        var turn = Vector256.Create(_secondTurn);
        var sizes = Vector256.Create(size);
        var four = Vector256.Create((double)Lanes);
        for (int i = 0; i < groups.Length; i++)
        {
            groups[i] += sizes * ThreePhase(x + (places * step), g);
            g *= ratio;
            ratio *= turn;
            places += four;
        }

        _first = g;
        _second = ratio;
        _places = places;
    }

    // The lanes that are left of the present group, as far as the target goes.
    private int DrawLanes(Span<double> target, double size)
    {
        Vector256<double> group = size * (_shape switch
        {
            TransientShape.Biphasic => Biphasic(Places(), _first),
            TransientShape.Exponential => Exponential(_first, _second),
            _ => ThreePhase(Places(), _first),
        });
        int count = Math.Min(Lanes - _drawn, target.Length);
        for (int i = 0; i < count; i++)
        {
            target[i] += group.GetElement(_drawn + i);
        }

        _drawn += count;
        if (_drawn == Lanes)
        {
            _drawn = 0;
            _places += Vector256.Create((double)Lanes);
            _first *= _shape == TransientShape.ThreePhase ? _second : Vector256.Create(_firstTurn);
            _second *= _secondTurn;
        }

        return count;
    }
}
