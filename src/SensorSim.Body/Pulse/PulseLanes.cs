// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Pulse;

/// <summary>Four components side by side, see <see cref="PulseWave"/>.</summary>
internal readonly struct PulseLanes(
    Vector256<double> start, Vector256<double> perSecond, Vector256<double> height, Vector256<double> cutX, Vector256<double> order)
{
    private readonly Vector256<double> _start = start;
    private readonly Vector256<double> _perSecond = perSecond;
    private readonly Vector256<double> _height = height;
    private readonly Vector256<double> _cutX = cutX;
    private readonly Vector256<double> _order = order;

    /// <summary>Adds the waves and their derivatives at a time.</summary>
    /// <param name="seconds">Time, the same in each lane [s].</param>
    /// <param name="derivatives">Highest derivative wanted, 2 to 4; a constant where this is called, so that the tests vanish.</param>
    /// <param name="sums">Sums so far, lane by lane.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Accumulate(Vector256<double> seconds, int derivatives, ref PulseLaneSums sums)
    {
        Vector256<double> x = (seconds - _start) * _perSecond;
        Vector256<double> alive = Vector256.GreaterThan(x, Vector256<double>.Zero) & Vector256.LessThanOrEqual(x, _cutX);

        // Lanes that are nothing here are computed at their peak, harmlessly, and have no height.
        x = Vector256.ConditionalSelect(alive, x, Vector256<double>.One);
        Vector256<double> h = x * ExpLanes.Exp(Vector256<double>.One - x);
        Vector256<double> cube = h * h * h;
        Vector256<double> sixth = cube * cube;
        Vector256<double> power = Vector256.ConditionalSelect(
            Vector256.GreaterThan(_order, Vector256.Create(6.0)),
            sixth * cube,
            Vector256.ConditionalSelect(Vector256.GreaterThan(_order, Vector256.Create(3.0)), sixth, cube));
        Vector256<double> v = (_height & alive) * power;

        // Logarithmic derivative l = v'/v of n (ln x + 1 − x) and its own derivatives; v'' / v = l² + l' and so on.
        Vector256<double> inverse = _perSecond / x;
        Vector256<double> l = _order * (inverse - _perSecond);
        Vector256<double> l1 = -(_order * inverse * inverse);
        Vector256<double> ll = l * l;
        sums.Value += v;
        sums.Slope += v * l;
        sums.Curvature += v * (ll + l1);
        if (derivatives < 3)
        {
            return;
        }

        var three = Vector256.Create(3.0);
        Vector256<double> l2 = Vector256.Create(-2.0) * l1 * inverse;
        sums.Jerk += v * ((l * (ll + (three * l1))) + l2);
        if (derivatives < 4)
        {
            return;
        }

        Vector256<double> l3 = Vector256.Create(-3.0) * l2 * inverse;
        sums.JerkSlope += v * ((ll * (ll + (Vector256.Create(6.0) * l1))) + (three * l1 * l1) + (Vector256.Create(4.0) * l * l2) + l3);
    }
}
