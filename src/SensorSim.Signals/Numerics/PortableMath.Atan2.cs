// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    /// <summary>Angle of the point (x, y), counted from the positive x axis.</summary>
    /// <param name="y">Ordinate.</param>
    /// <param name="x">Abscissa.</param>
    /// <returns>
    /// Angle [rad] from −π to π within 1.1 ulp. Zeros and infinities as IEEE 754-2019 section 9.2.1 says for <c>atan2</c>: the
    /// sign is that of <paramref name="y"/>, (±0, −0) gives ±π, (±∞, ∞) gives ±π/4. NaN gives NaN.
    /// </returns>
    public static double Atan2(double y, double x)
    {
        if (IsNaN(x) || IsNaN(y))
        {
            return double.NaN;
        }

        double a = Math.Abs(y);
        double b = Math.Abs(x);
        bool isSteep = a > b;
        double head;
        double tail;
        if (a == b)
        {
            // Equal, both zero or both infinite included: an eighth of a turn, but zeros lie along the axis.
            head = a == 0 ? 0 : HalfPiHi / 2;
            tail = a == 0 ? 0 : HalfPiLo / 2;
        }
        else
        {
            head = AtanOfRatio(isSteep ? b : a, isSteep ? a : b, out tail);
        }

        // π/2 − t when the point is nearer to the y axis, π − that on the left side.
        if (isSteep)
        {
            head = Minus(HalfPiHi, HalfPiLo, head, tail, out tail);
        }

        if (Bits(x) < 0)
        {
            head = Minus(2 * HalfPiHi, 2 * HalfPiLo, head, tail, out tail);
        }

        return Math.CopySign(head + tail, y);
    }

    /// <summary>Arc tangent of a/b for 0 ≤ a &lt; b, as a sum of two doubles.</summary>
    private static double AtanOfRatio(double a, double b, out double tail)
    {
        // Keeps the products below away from overflow and from the subnormal range; the ratio stays.
        if (b > 1e300)
        {
            a = b > double.MaxValue ? 0 : a * (1 / TwoTo65);
            b = b > double.MaxValue ? 1 : b * (1 / TwoTo65);
        }
        else if (b < 1e-200)
        {
            a *= TwoTo65 * TwoTo65 * TwoTo65 * TwoTo65;
            b *= TwoTo65 * TwoTo65 * TwoTo65 * TwoTo65;
        }

        double ratio = a / b;
        int j = (int)((ratio * 64) + 0.5);
        j = j < 4 ? 0 : j;
        double u = ratio;
        if (j > 0)
        {
            // atan(a/b) = atan(c) + atan((a − cb) / (b + ca)); a − cb without rounding until its last step.
            double c = j * (1.0 / 64);
            double upper = UpperHalf(b);
            u = ((a - (c * upper)) - (c * (b - upper))) / (b + (c * a));
        }

        double z = u * u;
        double polynomial = AtanC0 + (z * (AtanC1 + (z * (AtanC2 + (z * (AtanC3 + (z * AtanC4)))))));
        double small = AtanTable.Rows[(2 * j) + 1] + (z * u * polynomial);
        double head = AtanTable.Rows[2 * j] + u;
        tail = (u - (head - AtanTable.Rows[2 * j])) + small;
        return head;
    }

    private static double Minus(double head, double tail, double otherHead, double otherTail, out double resultTail)
    {
        double result = head - otherHead;
        resultTail = ((head - result) - otherHead) + (tail - otherTail);
        return result;
    }
}
