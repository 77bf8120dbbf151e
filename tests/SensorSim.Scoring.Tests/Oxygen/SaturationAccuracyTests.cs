// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Oxygen;

namespace SensorSim.Scoring.Tests.Oxygen;

/// <summary>A_rms and its parts on a worked example, computed by hand outside of this project.</summary>
public class SaturationAccuracyTests
{
    private static readonly double[] s_readings = [97, 95, 90, 86, 82, 77, 73, 98];
    private static readonly double[] s_truth = [96, 96, 88, 85, 84, 75, 74, 99];

    [Test]
    public void Figures_WorkedExample_GiveTheHandValues()
    {
        SaturationAccuracy a = Example();

        // Errors 1 −1 2 1 −2 2 −1 −1.
        Assert.That(a.Bias, Is.EqualTo(0.1250).Within(1e-9));
        Assert.That(a.Sd, Is.EqualTo(1.55265).Within(5e-6));
        Assert.That(a.Arms, Is.EqualTo(1.45774).Within(5e-6));

        // A_rms² = bias² + (n − 1)/n s².
        Assert.That(a.Arms * a.Arms, Is.EqualTo((0.125 * 0.125) + (7.0 / 8 * 1.55265 * 1.55265)).Within(1e-4));
    }

    // Least squares by hand: mean truth 87.125, mean reading 87.25; Sxx 632.875, Sxy 615.75, Syy 615.5.
    [Test]
    public void Precision_WorkedExample_IsTheScatterAboutTheLine() =>
        Assert.That(Example().Precision, Is.EqualTo(Math.Sqrt((615.5 - (615.75 * 615.75 / 632.875)) / 6)).Within(1e-9));

    [Test]
    public void Bands_WorkedExample_SplitByTheTrueValue()
    {
        SaturationAccuracy a = Example();
        a.Add(70, 70);
        a.Add(80, 81);
        a.Add(90, 93);
        a.Add(100, 100);
        a.Add(69.9, 70);
        Assert.That(a.Bands.Select(b => b.Count), Is.EqualTo(new[] { 3, 4, 5 }), "74 75 70; 88 85 84 80; 96 96 99 90 100");
        Assert.That(a.OutsideCount, Is.EqualTo(1));
        Assert.That(a.Bands[0].Rms, Is.EqualTo(Math.Sqrt(5.0 / 3)).Within(1e-9));
        Assert.That(a.Claimed.Count, Is.EqualTo(12));
    }

    // Published combinations: bias 1 and spread 2 (divisor n) give 2.2361; 1.5 and 2.5 give 2.9155.
    [TestCase(1, 2, 2.2361)]
    [TestCase(1.5, 2.5, 2.9155)]
    public void Arms_BiasAndSpread_Combine(double bias, double spread, double arms)
    {
        var a = new SaturationAccuracy();
        a.Add(90, 90 + bias + spread);
        a.Add(80, 80 + bias - spread);
        Assert.That(a.Arms, Is.EqualTo(arms).Within(5e-5));
    }

    private static SaturationAccuracy Example()
    {
        var a = new SaturationAccuracy();
        for (int i = 0; i < s_truth.Length; i++)
        {
            a.Add(s_truth[i], s_readings[i]);
        }

        return a;
    }
}
