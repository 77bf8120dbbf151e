// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests;

/// <summary>A plain ECG of Gaussian waves for these tests; doubles on purpose, independent of the project's generator.</summary>
/// <remarks>
/// Heights and distances are ordinary adult ones (textbook: P 0.12 mV 170 ms before R, R 1 mV, S, T 0.3 mV); the true R peak is the middle
/// of the R wave, moved by less than 0.05 ms by its neighbours (they are below e^-4 of their height there).
/// </remarks>
internal sealed class SyntheticEcg
{
    public int RateHz { get; init; } = 250;

    public double MicrovoltsPerCode { get; init; } = 1;

    public double RateBpm { get; init; } = 70;

    public double Sign { get; init; } = 1;

    public double TMillivolts { get; init; } = 0.3;

    public double NoiseMillivolts { get; init; }

    public double EctopicShare { get; init; }

    public double EctopicCoupling { get; init; } = 0.6;

    // From the ectopic beat to the next one, in intervals: 1.4 is a pause, 1 less the coupling none.
    public double EctopicPause { get; init; } = 1.4;

    public List<double> PeaksS { get; } = [];

    public int[] Make(double durationS, int seed)
    {
        var random = new Random(seed);
        var volts = new double[(int)(durationS * RateHz)];
        double interval = 60 / RateBpm;
        bool isEctopic = false;
        for (double t = 0.6; t < durationS - 0.5;)
        {
            PeaksS.Add(t);
            if (isEctopic)
            {
                Add(volts, t, 1.3, 0.028);
                Add(volts, t + 0.07, -0.5, 0.03);
                Add(volts, t + 0.25, -0.5, 0.06);
            }
            else
            {
                double stretch = Math.Min(1, Math.Pow(interval, 0.3));
                Add(volts, t - (0.17 * stretch), 0.12, 0.02);
                Add(volts, t - 0.032, -0.1, 0.008);
                Add(volts, t, 1, 0.010);
                Add(volts, t + 0.032, -0.2, 0.009);
                Add(volts, t + (0.28 * stretch), TMillivolts, 0.045 * stretch);
            }

            double next = interval * (1 + (0.05 * Math.Sin(2 * Math.PI * 0.25 * t)));
            bool wasEctopic = isEctopic;
            isEctopic = !wasEctopic && random.NextDouble() < EctopicShare;
            t += wasEctopic ? interval * EctopicPause : isEctopic ? interval * EctopicCoupling : next;
        }

        var codes = new int[volts.Length];
        for (int i = 0; i < codes.Length; i++)
        {
            double value = Sign * (volts[i] + (NoiseMillivolts * Normal(random)));
            codes[i] = (int)Math.Round(value * 1000 / MicrovoltsPerCode) + 4000;
        }

        return codes;
    }

    public static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private void Add(double[] volts, double at, double height, double width)
    {
        int first = Math.Max(0, (int)((at - (6 * width)) * RateHz));
        int last = Math.Min(volts.Length - 1, (int)((at + (6 * width)) * RateHz) + 1);
        for (int i = first; i <= last; i++)
        {
            double u = (((double)i / RateHz) - at) / width;
            volts[i] += height * Math.Exp(-u * u / 2);
        }
    }
}
