// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Pulse;

/// <summary>Two components at four instants in the lanes of one vector: every lane goes the way of <see cref="PulseLanes"/>, so it has the same bits.</summary>
internal static class PulseWideLanes
{
    /// <summary>Values and derivatives.</summary>
    /// <param name="x">(Time − start) / time to peak.</param>
    /// <param name="perSecond">1 / time to peak [1/s].</param>
    /// <param name="height">Heights.</param>
    /// <param name="cutX">Largest x; beyond it, and below 0, a wave is nothing.</param>
    /// <param name="order">Orders n: 3, 6 or 9.</param>
    /// <param name="slope">Receives the first derivatives.</param>
    /// <param name="curvature">Receives the second ones.</param>
    /// <param name="jerk">Receives the third ones.</param>
    /// <param name="jerkSlope">Receives the fourth ones.</param>
    /// <returns>The values.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Value(
        Vector512<double> x,
        Vector512<double> perSecond,
        Vector512<double> height,
        Vector512<double> cutX,
        Vector512<double> order,
        out Vector512<double> slope,
        out Vector512<double> curvature,
        out Vector512<double> jerk,
        out Vector512<double> jerkSlope)
    {
        Vector512<double> alive = Vector512.GreaterThan(x, Vector512<double>.Zero) & Vector512.LessThanOrEqual(x, cutX);
        x = Vector512.ConditionalSelect(alive, x, Vector512<double>.One);
        Vector512<double> inverse = perSecond / x;
        Vector512<double> h = x * Exp(Vector512<double>.One - x);
        Vector512<double> cube = h * h * h;
        Vector512<double> three = Vector512.Create(3.0);
        Vector512<double> six = Vector512.Create(6.0);
        Vector512<double> power = cube * Vector512.ConditionalSelect(Vector512.GreaterThan(order, three), cube, Vector512<double>.One);
        power *= Vector512.ConditionalSelect(Vector512.GreaterThan(order, six), cube, Vector512<double>.One);
        Vector512<double> v = (height & alive) * power;
        Vector512<double> l = order * (inverse - perSecond);
        Vector512<double> l1 = -(order * inverse * inverse);
        Vector512<double> l2 = Vector512.Create(-2.0) * l1 * inverse;
        Vector512<double> l3 = Vector512.Create(-3.0) * l2 * inverse;
        Vector512<double> ll = l * l;
        slope = v * l;
        curvature = v * (ll + l1);
        jerk = v * ((l * (ll + (three * l1))) + l2);
        jerkSlope = v * ((ll * (ll + (six * l1))) + (three * l1 * l1) + (Vector512.Create(4.0) * l * l2) + l3);
        return v;
    }

    // As ExpLanes.Exp.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Exp(Vector512<double> x)
    {
        Vector512<double> shift = Vector512.Create(6755399441055744.0);
        Vector512<double> shifted = (x * Vector512.Create(1.4426950408889634)) + shift;
        Vector512<double> k = shifted - shift;
        Vector512<double> r = (x - (k * Vector512.Create(0.6931471805598903))) - (k * Vector512.Create(5.497923018708371E-14));
        Vector512<double> r2 = r * r;
        Vector512<double> r4 = r2 * r2;
        Vector512<double> c2 = Vector512.Create(1.0 / 2) + (r * Vector512.Create(1.0 / 6));
        Vector512<double> c4 = Vector512.Create(1.0 / 24) + (r * Vector512.Create(1.0 / 120));
        Vector512<double> c6 = Vector512.Create(1.0 / 720) + (r * Vector512.Create(1.0 / 5040));
        Vector512<double> c8 = Vector512.Create(1.0 / 40320) + (r * Vector512.Create(1.0 / 362880));
        Vector512<double> c10 = Vector512.Create(1.0 / 3628800) + (r * Vector512.Create(1.0 / 39916800));
        Vector512<double> low = c2 + (r2 * c4);
        Vector512<double> middle = c6 + (r2 * c8);
        Vector512<double> high = c10 + (r2 * Vector512.Create(1.0 / 479001600));
        Vector512<double> polynomial = low + (r4 * (middle + (r4 * high)));
        Vector512<double> significand = Vector512<double>.One + (r + (r2 * polynomial));
        return (significand.AsInt64() + (shifted.AsInt64() << 52)).AsDouble();
    }
}
