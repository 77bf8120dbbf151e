// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests;

/// <summary>Runs the pulse detector over an array of which some samples are missing and at some of which the settings change.</summary>
internal static class PulseRun
{
    public static List<PulseEvent> Over(
        LogNormalPulse light, int[] codes, Func<int, bool>? isMissing = null, int[]? steps = null, int block = int.MaxValue)
    {
        var detector = new PulseDetector();
        return Over(ref detector, light, codes, isMissing, steps, block);
    }

    public static List<PulseEvent> Over(
        ref PulseDetector detector, LogNormalPulse light, int[] codes, Func<int, bool>? isMissing = null, int[]? steps = null, int block = int.MaxValue)
    {
        Assert.That(detector.Start(light.RateHz, light.Polarity, light.ZeroCode), Is.True);
        var found = new List<PulseEvent>();
        for (int from = 0; from < codes.Length;)
        {
            if (isMissing?.Invoke(from) == true)
            {
                from++;
                continue;
            }

            if (from != detector.NextIndex)
            {
                detector.Restart(from);
            }

            if (steps?.Contains(from) == true)
            {
                detector.Step(from);
            }

            int to = from + 1;
            while (to < codes.Length && to - from < block && isMissing?.Invoke(to) != true && steps?.Contains(to) != true)
            {
                to++;
            }

            while (from < to)
            {
                from += detector.Take(codes.AsSpan(from, to - from), out bool isPulse);
                if (isPulse)
                {
                    found.Add(detector.Event);
                }
            }
        }

        return found;
    }

    public static Runs.Score Feet(LogNormalPulse light, List<PulseEvent> found, double fromS, double untilS) =>
        Runs.Compare(light.Truth().Select(t => t.FootS), found.Select(p => Runs.Seconds(p.Foot, light.RateHz)), fromS, untilS);
}
