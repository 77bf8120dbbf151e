// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Movement;

/// <summary>A gait of the tests' own: steps up and down, an arm that swings, both with sizes and pace that wander.</summary>
internal sealed class Gait
{
    public double CadenceHz { get; init; } = 1.9;

    public double UpG { get; init; } = 0.5;

    public double SwingG { get; init; } = 0.3;

    public int Seed { get; init; } = 5020;

    /// <summary>Acceleration [g] without gravity at a rate: forward, sideways, up.</summary>
    public double[][] Make(double durationS, int rateHz)
    {
        var random = new Random(Seed);
        double[] wander = [.. Enumerable.Range(0, 12).Select(_ => random.NextDouble() * 2 * Math.PI)];
        double Slow(int k, double t) => Math.Sin((2 * Math.PI * (0.011 + (0.017 * k)) * t) + wander[k]);
        var samples = new double[(int)(durationS * rateHz)][];
        for (int i = 0; i < samples.Length; i++)
        {
            double t = (double)i / rateHz;
            double steps = (CadenceHz * t) + (0.15 * Slow(0, t)) + (0.1 * Slow(1, t)) + wander[11];
            double step = 2 * Math.PI * steps;
            double swing = SwingG * (1 + (0.15 * Slow(2, t))) * Math.Sin(step / 2);
            double up = UpG * (1 + (0.15 * Slow(3, t))) * (Math.Sin(step + 0.4) + (0.35 * Math.Sin((2 * step) + 1.1)));
            double side = 0.3 * SwingG * (1 + (0.2 * Slow(4, t))) * Math.Cos((step / 2) + 0.8);
            samples[i] = [swing + (0.3 * up), side, up];
        }

        return samples;
    }

    /// <summary>Codes of one sample: turned so that gravity does not lie along an axis, 1 g more.</summary>
    public static int[] Codes(double[] g, int codesPerG) =>
    [
        (int)Math.Round(codesPerG * ((0.8 * g[0]) + (0.6 * (g[2] + 1)))),
        (int)Math.Round(codesPerG * g[1]),
        (int)Math.Round(codesPerG * ((-0.6 * g[0]) + (0.8 * (g[2] + 1)))),
    ];
}
