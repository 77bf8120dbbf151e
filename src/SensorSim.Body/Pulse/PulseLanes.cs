// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Pulse;

/// <summary>Four components side by side, see <see cref="PulseWave"/>.</summary>
internal static class PulseLanes
{
    /// <summary>Values, and what the derivatives are made of, lane by lane.</summary>
    /// <param name="x">(Time − start) / time to peak.</param>
    /// <param name="perSecond">1 / time to peak [1/s].</param>
    /// <param name="height">Heights.</param>
    /// <param name="cutX">Largest x; beyond it, and below 0, a wave is nothing.</param>
    /// <param name="order">Orders n: 3, 6 or 9.</param>
    /// <param name="l">Receives the logarithmic derivative v'/v.</param>
    /// <param name="l1">Receives its own derivative.</param>
    /// <param name="inverse">Receives 1 / time since the start [1/s].</param>
    /// <returns>The values v.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Value(
        Vector256<double> x,
        Vector256<double> perSecond,
        Vector256<double> height,
        Vector256<double> cutX,
        Vector256<double> order,
        out Vector256<double> l,
        out Vector256<double> l1,
        out Vector256<double> inverse)
    {
        // Lanes that are nothing here are computed at their peak, harmlessly, and have no height.
        Vector256<double> alive = Vector256.GreaterThan(x, Vector256<double>.Zero) & Vector256.LessThanOrEqual(x, cutX);
        x = Vector256.ConditionalSelect(alive, x, Vector256<double>.One);
        inverse = perSecond / x;
        Vector256<double> h = x * ExpLanes.Exp(Vector256<double>.One - x);
        Vector256<double> cube = h * h * h;
        Vector256<double> second = Vector256.GreaterThan(order, Vector256.Create(3.0));
        Vector256<double> third = Vector256.GreaterThan(order, Vector256.Create(6.0));
        Vector256<double> power = cube * Vector256.ConditionalSelect(second, cube, Vector256<double>.One);
        power *= Vector256.ConditionalSelect(third, cube, Vector256<double>.One);

        // Logarithmic derivative of n (ln x + 1 − x).
        l = order * (inverse - perSecond);
        l1 = -(order * inverse * inverse);
        return (height & alive) * power;
    }

    /// <summary>v''' / v, from l, l' and l''.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Jerk(Vector256<double> l, Vector256<double> l1, Vector256<double> l2) =>
        (l * ((l * l) + (Vector256.Create(3.0) * l1))) + l2;

    /// <summary>v'''' / v, from l, l', l'' and l'''.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> JerkSlope(Vector256<double> l, Vector256<double> l1, Vector256<double> l2, Vector256<double> l3)
    {
        Vector256<double> ll = l * l;
        return (ll * (ll + (Vector256.Create(6.0) * l1))) + (Vector256.Create(3.0) * l1 * l1) + (Vector256.Create(4.0) * l * l2) + l3;
    }

    /// <summary>Sum over the lanes, (0 + 2) + (1 + 3): one order for every machine.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Across(Vector256<double> lanes)
    {
        Vector128<double> pairs = lanes.GetLower() + lanes.GetUpper();
        return pairs.GetElement(0) + pairs.GetElement(1);
    }
}
