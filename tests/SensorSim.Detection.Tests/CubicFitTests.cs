// SPDX-License-Identifier: MIT
using MathNet.Numerics.LinearRegression;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class CubicFitTests
{
    [TestCase(2)]
    [TestCase(5)]
    [TestCase(6)]
    [TestCase(12)]
    public void SlopeAndLevel_AnySamples_MatchALeastSquaresSolver(int arm)
    {
        var random = new Random(arm);
        var held = new Word256();
        double[] x = [.. Enumerable.Range(-arm, (2 * arm) + 1).Select(k => (double)k)];
        double[] y = [.. x.Select(_ => (double)random.Next(-10_000, 10_000))];
        for (int i = 0; i < x.Length; i++)
        {
            held[100 + (int)x[i]] = (int)y[i];
        }

        double[][] design = [.. x.Select(k => new[] { 1, k, k * k, k * k * k })];
        double[] solved = MultipleRegression.QR(design, y);
        var fit = new CubicFit();
        fit.Restart(arm);

        // Each weight is rounded by up to half a step of 2^-14, over 2m + 1 samples of up to 10,000 (slopes: differences of 20,000).
        double tolerance = 0.5 / 16384 * 10_000 * ((2 * arm) + 1);
        Assert.That(fit.Level(held, 100, 0, 0) / 16384.0, Is.EqualTo(solved[0]).Within(tolerance));
        Assert.That(fit.Slope(held, 100, 0) / 16384.0, Is.EqualTo(solved[1]).Within(tolerance));
    }

    // Savitzky and Golay 1964 (as corrected by Steinier 1972), cubic, 5 points: smoothing −3 12 17 12 −3 / 35, derivative 1 −8 0 8 −1 / 12.
    [Test]
    public void Restart_FivePoints_GivesThePublishedWeights()
    {
        var fit = new CubicFit();
        fit.Restart(2);
        double[] level = [-3, 12, 17, 12, -3];
        double[] slope = [1, -8, 0, 8, -1];
        for (int i = 0; i < 5; i++)
        {
            var held = new Word256();
            held[100 + i - 2] = 1;
            Assert.That(fit.Level(held, 100, 0, 0), Is.EqualTo(level[i] / 35 * 16384).Within(0.51));
            Assert.That(fit.Slope(held, 100, 0), Is.EqualTo(slope[i] / 12 * 16384).Within(0.51));
        }
    }
}
