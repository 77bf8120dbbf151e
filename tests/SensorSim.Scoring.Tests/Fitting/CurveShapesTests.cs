// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;

namespace SensorSim.Scoring.Tests.Fitting;

[TestFixture]
public sealed class CurveShapesTests
{
    // The fit asks for both at once, whoever looks at its curve for the share alone: the same bits, or a fit would not lie on its own curve.
    [Test]
    public void Share_WithAndWithoutSlope_IsTheSameToTheBit([Values] CurveLink link, [Values(-800, -36.5, -1.25, -1e-9, 0, 1e-9, 0.75, 36.5, 800)] double line)
    {
        double share = link.Share(line, out double slope);
        Assert.That(BitConverter.DoubleToInt64Bits(share), Is.EqualTo(BitConverter.DoubleToInt64Bits(link.Share(line))));
        Assert.That(slope, Is.EqualTo(link.Slope(line)).And.InRange(0, 0.4));
    }

    // Standard normal table: 0.975 at 1.959964, 0.99 at 2.326348; logit of 0.99 = ln 99.
    [TestCase(CurveLink.Probit, 1.959964, 0.975)]
    [TestCase(CurveLink.Probit, -2.326348, 0.01)]
    [TestCase(CurveLink.Logit, 4.595120, 0.99)]
    [TestCase(CurveLink.ComplementaryLogLog, -0.366513, 0.5)]
    public void ShareAndLine_TableValue_AgreeBothWays(CurveLink link, double line, double share)
    {
        Assert.That(link.Share(line), Is.EqualTo(share).Within(1e-7));
        Assert.That(link.Line(share), Is.EqualTo(line).Within(1e-6));
        Assert.That(link.Slope(line), Is.EqualTo((link.Share(line + 1e-5) - link.Share(line - 1e-5)) / 2e-5).Within(1e-8));
    }

    // By hand: 3 and 4 of weights 1 and 3 pool to 3.75; then 5, 3.75, 3.75, 1.
    [Test]
    public void Falling_OneViolation_PoolsByWeight()
    {
        double[] values = [5, 3, 4, 1];
        IsotonicFit.Falling(values, [1, 1, 3, 1]);
        Assert.That(values, Is.EqualTo(new[] { 5, 3.75, 3.75, 1 }).Within(1e-12));
    }

    // Projection onto a cone: residuals are orthogonal to the fit, and no falling change improves.
    [Test]
    public void Falling_AnyValues_NeverRisesAndKeepsTheWeightedMean()
    {
        double[] values = [2, 7, 1, 8, 2, 8, 1, 8, 2, 8, 4, 5];
        double[] weights = [1, 2, 3, 1, 2, 3, 1, 2, 3, 1, 2, 3];
        double before = values.Zip(weights, (v, w) => v * w).Sum();
        double[] fit = [.. values];
        IsotonicFit.Falling(fit, weights);
        Assert.That(fit, Is.Ordered.Descending);
        Assert.That(fit.Zip(weights, (v, w) => v * w).Sum(), Is.EqualTo(before).Within(1e-9));
        Assert.That(Enumerable.Range(0, 12).Sum(i => weights[i] * fit[i] * (values[i] - fit[i])), Is.EqualTo(0).Within(1e-9));
    }

    [Test]
    public void Crossing_StraightLine_IsExact() =>
        Assert.That(MonotoneCubic.Crossing([0, 1, 3, 4], [8, 6, 2, 0], 3), Is.EqualTo(2.5).Within(1e-9));

    [Test]
    public void Crossing_SmoothCurve_IsNearerThanAStraightLine()
    {
        double[] levels = [0, 1, 2, 3, 4];
        double[] values = [.. levels.Select(x => -x * x * x)];
        double target = -Math.Pow(2.5, 3);
        double chord = 2 + ((target + 8) / (-27 + 8));
        double cubic = MonotoneCubic.Crossing(levels, values, target);
        Assert.That(Math.Abs(cubic - 2.5), Is.LessThan(0.25 * Math.Abs(chord - 2.5)));
        Assert.That(MonotoneCubic.At(levels, values, cubic), Is.EqualTo(target).Within(1e-6));
    }

    [Test]
    public void Crossing_NoneOrAllBelow_IsInfinite()
    {
        Assert.That(MonotoneCubic.Crossing([0, 1], [3, 2], 1), Is.EqualTo(double.PositiveInfinity));
        Assert.That(MonotoneCubic.Crossing([0, 1], [3, 2], 4), Is.EqualTo(double.NegativeInfinity));
    }

    [Test]
    public void At_SteepAndFlat_NeverRises()
    {
        double[] levels = [0, 1, 2, 3, 10, 11];
        double[] values = [9, 9, 8.9, 1, 0.9, -7];
        double[] curve = [.. Enumerable.Range(0, 1101).Select(i => MonotoneCubic.At(levels, values, i / 100.0))];
        Assert.That(curve, Is.Ordered.Descending);
    }
}
