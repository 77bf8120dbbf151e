// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests;

/// <summary>Runs a detector over an array, and compares times with truth.</summary>
internal static class Runs
{
    public static List<BeatEvent> Beats(int[] codes, int rateHz, int block = int.MaxValue)
    {
        var detector = new BeatDetector();
        Assert.That(detector.Start(rateHz), Is.True);
        var found = new List<BeatEvent>();
        for (int from = 0; from < codes.Length;)
        {
            ReadOnlySpan<int> rest = codes.AsSpan(from, Math.Min(block, codes.Length - from));
            from += detector.Take(rest, out bool isBeat);
            if (isBeat)
            {
                found.Add(detector.Event);
            }
        }

        return found;
    }

    public static List<PulseEvent> Pulses(int[] codes, int rateHz, int polarity = 1, int block = int.MaxValue)
    {
        var detector = new PulseDetector();
        Assert.That(detector.Start(rateHz, polarity), Is.True);
        var found = new List<PulseEvent>();
        for (int from = 0; from < codes.Length;)
        {
            ReadOnlySpan<int> rest = codes.AsSpan(from, Math.Min(block, codes.Length - from));
            from += detector.Take(rest, out bool isPulse);
            if (isPulse)
            {
                found.Add(detector.Event);
            }
        }

        return found;
    }

    public static double Seconds(SamplePosition place, int rateHz) => place.In256 / 256.0 / rateHz;

    /// <summary>Matches within 150 ms, one to one, from a time on; times in seconds, both ascending.</summary>
    public static Score Compare(IEnumerable<double> truth, IEnumerable<double> found, double fromS, double untilS)
    {
        var open = found.ToList();
        var errorsMs = new List<double>();
        int missed = 0;
        double[] all = [.. truth];
        foreach (double t in all.Where(t => t >= fromS && t < untilS))
        {
            int nearest = -1;
            for (int i = 0; i < open.Count; i++)
            {
                if (Math.Abs(open[i] - t) <= 0.15 && (nearest < 0 || Math.Abs(open[i] - t) < Math.Abs(open[nearest] - t)))
                {
                    nearest = i;
                }
            }

            if (nearest < 0)
            {
                missed++;
            }
            else
            {
                errorsMs.Add((open[nearest] - t) * 1000);
                open.RemoveAt(nearest);
            }
        }

        int extra = open.Count(f => f >= fromS && f < untilS && !all.Any(t => (t < fromS || t >= untilS) && Math.Abs(t - f) <= 0.15));
        double bias = errorsMs.Count == 0 ? double.NaN : errorsMs.Average();
        double variance = errorsMs.Count == 0 ? double.NaN : errorsMs.Average(e => (e - bias) * (e - bias));
        return new Score(errorsMs.Count, missed, extra, bias, Math.Sqrt(variance));
    }

    internal sealed record Score(int Matched, int Missed, int Extra, double BiasMs, double SdMs);
}
