// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Tests.Numerics;

/// <summary>Errors against mpmath 1.2.1 at 1400 bits (Reference/make_reference.py); the bounds are those of the documentation.</summary>
public sealed class PortableMathAccuracyTests
{
    [Test]
    public void Exp_NormalResults_Within06Ulp() => AssertWorst("exp", 0.6, 400, (x, _) => PortableMath.Exp(x));

    [Test]
    public void Exp_SubnormalResults_Within1Ulp() => AssertWorst("exp_subnormal", 1, 40, (x, _) => PortableMath.Exp(x));

    [Test]
    public void Log_AllSizes_Within051Ulp() => AssertWorst("log", 0.51, 400, (x, _) => PortableMath.Log(x));

    [Test]
    public void Sin_UpToAMillion_Within09Ulp() => AssertWorst("sin", 0.9, 300, (x, _) => PortableMath.Sin(x));

    [Test]
    public void Cos_UpToAMillion_Within09Ulp() => AssertWorst("cos", 0.9, 300, (x, _) => PortableMath.Cos(x));

    // The list begins with the double that lies nearest to a multiple of pi/2 (Muller, Elementary Functions, 2016).
    [Test]
    public void Sin_HugeAngles_Within09Ulp() => AssertWorst("sin_large", 0.9, 60, (x, _) => PortableMath.Sin(x));

    [Test]
    public void Cos_HugeAngles_Within09Ulp() => AssertWorst("cos_large", 0.9, 60, (x, _) => PortableMath.Cos(x));

    [Test]
    public void SinCosTurns_Sine_Within16Ulp() => AssertWorst("turn_sin", 1.6, 300, (x, _) => SinTurns(x));

    [Test]
    public void SinCosTurns_Cosine_Within16Ulp() => AssertWorst("turn_cos", 1.6, 300, (x, _) => CosTurns(x));

    [Test]
    public void Pow_NormalResults_Within06Ulp() => AssertWorst("pow", 0.6, 400, PortableMath.Pow);

    [Test]
    public void Atan2_AllQuadrants_Within11Ulp() => AssertWorst("atan2", 1.1, 400, PortableMath.Atan2);

    [Test]
    public void SinCosTurns_AllSizes_AbsoluteErrorBelow13e17()
    {
        double worst = 0;
        foreach ((string function, Func<double, double> compute) in new (string, Func<double, double>)[] { ("turn_sin", SinTurns), ("turn_cos", CosTurns) })
        {
            foreach (ReferenceValue value in ReferenceValues.Of(function))
            {
                double ulp = Math.BitIncrement(Math.Abs(value.Nearest)) - Math.Abs(value.Nearest);
                worst = Math.Max(worst, value.ErrorUlp(compute(value.X)) * ulp);
            }
        }

        TestContext.Out.WriteLine($"turns: worst absolute error {worst:E2}");
        Assert.That(worst, Is.LessThan(1.3e-16));
    }

    private static double SinTurns(double turns)
    {
        PortableMath.SinCosTurns(turns, out double sin, out _);
        return sin;
    }

    private static double CosTurns(double turns)
    {
        PortableMath.SinCosTurns(turns, out _, out double cos);
        return cos;
    }

    private static void AssertWorst(string function, double boundUlp, int atLeast, Func<double, double, double> compute)
    {
        List<ReferenceValue> values = ReferenceValues.Of(function);
        Assert.That(values, Has.Count.GreaterThanOrEqualTo(atLeast));
        ReferenceValue worst = values.MaxBy(v => v.ErrorUlp(compute(v.X, v.Y)));
        double error = worst.ErrorUlp(compute(worst.X, worst.Y));
        TestContext.Out.WriteLine($"{function}: worst error {error:F4} ulp");
        Assert.That(error, Is.LessThan(boundUlp), $"{function}({worst.X:R}, {worst.Y:R})");
    }
}
