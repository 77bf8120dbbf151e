// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Random candidates for the judge alone: a rhythm, early beats of another shape, T waves, and transients that come now and then.</summary>
/// <remarks>Both judges get the same whole numbers, so that what differs is what the judge itself rounds.</remarks>
internal static class JudgeScript
{
    // At 250 Hz.
    private const double RateHz = 250;

    /// <summary>Candidates in the order of their places; some are closer than 200 ms.</summary>
    public static List<BeatCandidate> Make(int seed, int beats)
    {
        var random = new Random(seed);
        double[] usual = Draw(random);
        double[] other = Draw(random);
        var list = new List<BeatCandidate>();
        double interval = (0.6 + (0.5 * random.NextDouble())) * RateHz;
        double at = 600;
        double strangeness = 0;
        for (int i = 0; i < beats; i++)
        {
            // Quiet stretches and restless ones, so that doubt comes and goes.
            strangeness = i % 60 == 0 ? random.NextDouble() * random.NextDouble() : strangeness;
            bool isEarly = i > 12 && random.NextDouble() < 0.08;
            double place = isEarly ? at - (interval * (0.15 + (0.25 * random.NextDouble()))) : at + (0.02 * interval * SyntheticEcg.Normal(random));
            if (random.NextDouble() > 0.02)
            {
                list.Add(Of(random, place, isEarly ? other : usual, usual, other, 0.1 + (0.5 * strangeness), isEarly ? 1.3 : 1));
            }

            if (random.NextDouble() < 0.5)
            {
                list.Add(Of(random, place + 70, Draw(random), usual, other, 1, 0.35 + (0.5 * random.NextDouble())));
            }

            if (i > 12 && random.NextDouble() < strangeness)
            {
                list.Add(Of(random, at + (interval * random.NextDouble()), Draw(random), usual, other, 1, 0.3 + (1.5 * random.NextDouble())));
            }

            at += interval * (1 + (0.15 * Math.Sin(i / 40.0)));
        }

        return [.. list.OrderBy(c => c.Position256)];
    }

    /// <summary>The same candidate for the twin.</summary>
    public static BeatCandidateTwin Twin(in BeatCandidate c)
    {
        var slopes = new double[Slopes16.Length];
        for (int i = 0; i < slopes.Length; i++)
        {
            slopes[i] = c.Slopes[i];
        }

        return new BeatCandidateTwin
        {
            Slopes = slopes,
            Scale = c.Scale,
            Position = c.Position256 / 256.0,
            Deviation = c.Deviation,
            Slope = c.Slope,
            Height = c.Height,
            Fit = c.Fit,
            Size = c.Size,
            OtherFit = c.OtherFit,
            OtherSize = c.OtherSize,
        };
    }

    private static double[] Draw(Random random)
    {
        double middle = 5 + (5 * random.NextDouble());
        double width = 1.2 + (1.5 * random.NextDouble());
        double skew = (2 * random.NextDouble()) - 1;
        return [.. Enumerable.Range(0, 16).Select(i => ((i - middle) / width) + skew).Select(u => -u * Math.Exp(-u * u / 2))];
    }

    private static BeatCandidate Of(Random random, double place, double[] shape, double[] usual, double[] other, double noise, double size)
    {
        double[] slopes = [.. shape.Select(s => s + (0.2 * noise * SyntheticEcg.Normal(random)))];
        double unit = 3500 / slopes.Max(Math.Abs);
        double height = size * (1 + (0.1 * SyntheticEcg.Normal(random)));
        var c = new BeatCandidate
        {
            Position256 = (long)(place * 256),
            Scale = 3,
            Slope = (int)(9_000 * height * (0.6 + (0.6 * random.NextDouble()))),
            Height = Math.Max(1, (int)(1_000_000 * height)),
            Deviation = (int)(4000 * height),
            Quality = 255,
            Fit = (int)Math.Round(256 * Likeness(slopes, usual)),
            OtherFit = (int)Math.Round(256 * Likeness(slopes, other)),
        };
        c.Size = (int)(60_000 * height * Math.Max(0, c.Fit) / 256);
        c.OtherSize = (int)(60_000 * height * Math.Max(0, c.OtherFit) / 256);
        for (int i = 0; i < Slopes16.Length; i++)
        {
            c.Slopes[i] = (short)Math.Round(unit * slopes[i]);
        }

        return c;
    }

    private static double Likeness(double[] a, double[] b) =>
        a.Zip(b, (x, y) => x * y).Sum() / Math.Sqrt(a.Sum(x => x * x) * b.Sum(y => y * y));
}
