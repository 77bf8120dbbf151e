// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>Runs the beat detector over codes with status words and gaps; disturbances made with doubles, independent of the generator.</summary>
internal static class BeatStream
{
    /// <summary>Beats of a stream from which samples are missing.</summary>
    public static List<BeatEvent> Run(int[] codes, int rateHz, ushort[]? status = null, Func<int, bool>? isLost = null, int block = int.MaxValue, int codesPerMv256 = 256_000)
    {
        var detector = new BeatDetector();
        Assert.That(detector.Start(rateHz, codesPerMv256), Is.True);
        var found = new List<BeatEvent>();
        NoProbe probe = default;
        for (int from = 0; from < codes.Length;)
        {
            if (isLost is not null && isLost(from))
            {
                from++;
                continue;
            }

            if (from != detector.NextIndex)
            {
                detector.Restart(from);
            }

            int until = from + 1;
            while (until < codes.Length && until - from < block && !(isLost is not null && isLost(until)))
            {
                until++;
            }

            ReadOnlySpan<ushort> words = status is null ? default : status.AsSpan(from, until - from);
            from += detector.Take(codes.AsSpan(from, until - from), words, ref probe, out bool isBeat);
            if (isBeat)
            {
                found.Add(detector.Event);
            }
        }

        while (detector.Flush())
        {
            found.Add(detector.Event);
        }

        return found;
    }

    /// <summary>Scores against true peaks from 8 s to a second before the end.</summary>
    public static Runs.Score Score(SyntheticEcg ecg, List<BeatEvent> found, double durationS) =>
        Runs.Compare(ecg.PeaksS, found.Select(b => Runs.Seconds(b.RPeak, ecg.RateHz)), 8, durationS - 1);

    /// <summary>Adds transients of pulled electrodes: there and back or a fast rise and a slow fall, either sign, at random times.</summary>
    public static void AddTransients(int[] codes, int rateHz, int seed, double perMinute, double peakMillivolts)
    {
        var random = new Random(seed);
        double end = codes.Length / (double)rateHz;
        for (double t = 5; t < end; t += -Math.Log(1 - random.NextDouble()) * 60 / perMinute)
        {
            double size = peakMillivolts * (0.5 + random.NextDouble()) * (random.Next(2) == 0 ? -1000 : 1000);
            double width = (0.08 + (0.42 * random.NextDouble())) / 8;
            bool isBiphasic = random.Next(2) == 0;
            int first = (int)(t * rateHz);
            for (int i = first; i < Math.Min(codes.Length, first + rateHz); i++)
            {
                double x = ((i / (double)rateHz) - t) / width;
                double shape = x < 0 ? 0 : isBiphasic ? x * x * (3 - x) * Math.Exp(-x) / 1.2 : 1.6 * Math.Pow(1 - Math.Exp(-x / 0.3), 3) * Math.Exp(-x);
                codes[i] += (int)Math.Round(size * shape);
            }
        }
    }
}
