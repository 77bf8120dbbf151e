// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What fixed point cost the parts of the spectrum: ring and transform together, and the track.</summary>
internal static class SpectrumPartCosts
{
    private const int Samples = 100;

    /// <summary>Powers [dB] of the bins within 40 dB of the highest, light and artefact, of windows as they come from a light at 100 Hz.</summary>
    public static StageCost Powers(int[] light, int[] artefact)
    {
        double[] first = Sums(light);
        double[] second = Sums(artefact);
        var ours = new List<double>();
        var theirs = new List<double>();
        for (int from = 0; from + Samples <= first.Length; from += 25)
        {
            double[] one = first[from..(from + Samples)];
            double[] two = second[from..(from + Samples)];
            HalfRing oneHeld = Held(one);
            HalfRing twoHeld = Held(two);
            SpectrumPair pair = default;
            pair.Make(oneHeld, twoHeld, Samples, 32768 / Samples);
            var twin = new SpectrumPairTwin(one, two);

            // The stage's powers have a weight of their own in each window: the sum of the bins tells it.
            Add(ours, theirs, Powers(pair.First), twin.Light);
            Add(ours, theirs, Powers(pair.Second), twin.Artefact);
        }

        return StageCost.Of([.. ours], [.. theirs]);
    }

    /// <summary>Both tracks on the same whole evidence, which moves to and fro; how often their best rates are more than a bin apart, and the margins [256 log2].</summary>
    public static (int Windows, int OtherBest, StageCost Margin) Track(int seed)
    {
        const int States = 64;
        var random = new Random(seed);
        var track = default(RateTrack);
        track.Restart(States);
        var twin = new RateTrackTwin(States);
        var ours = new List<double>();
        var theirs = new List<double>();
        double place = 20;
        int others = 0;
        for (int n = 0; n < 2000; n++)
        {
            place = Math.Clamp(place + (0.7 * SyntheticEcg.Normal(random)), 2, States - 3);
            Half80 evidence = default;
            var exact = new double[States];
            for (int s = 0; s < States; s++)
            {
                double peak = 700 * Math.Exp(-(s - place) * (s - place) / 4);
                evidence[s] = (short)Math.Round(peak + (200 * SyntheticEcg.Normal(random)));
                exact[s] = evidence[s];
            }

            track.Add(evidence);
            twin.Add(exact);
            others += Math.Abs(track.Best - twin.Best) > 1 ? 1 : 0;
            ours.Add(track.Margin);
            theirs.Add(twin.Margin);
        }

        return (ours.Count, others, StageCost.Of([.. ours], [.. theirs]));
    }

    private static double[] Powers(in Word256 spectrum)
    {
        var powers = new double[SpectrumPair.Bins];
        for (int k = 1; k < powers.Length; k++)
        {
            powers[k] = spectrum[k];
        }

        return powers;
    }

    private static void Add(List<double> ours, List<double> theirs, double[] stage, double[] twin)
    {
        double weight = twin.Sum() / stage.Sum();
        double least = twin.Max() / 10_000;
        for (int k = 1; k < stage.Length; k++)
        {
            if (twin[k] > least)
            {
                ours.Add(10 * Math.Log10(stage[k] * weight));
                theirs.Add(10 * Math.Log10(twin[k]));
            }
        }
    }

    private static HalfRing Held(double[] values)
    {
        var ring = default(HalfRing);
        ring.Restart(Samples);
        foreach (double value in values)
        {
            ring.Add((int)value);
        }

        ring.Settle();
        return ring;
    }

    // Sums of eight without their mean, whole numbers.
    private static double[] Sums(int[] values)
    {
        double[] sums = [.. values.Chunk(8).Select(c => (double)c.Sum())];
        double mean = Math.Round(sums.Average());
        return [.. sums.Select(s => s - mean)];
    }
}
