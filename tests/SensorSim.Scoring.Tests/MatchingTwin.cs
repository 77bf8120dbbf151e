// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Tests;

/// <summary>One event as the tests feed it.</summary>
internal readonly record struct FedEvent(bool IsTruth, long TimeNs, long LateNs, TruthFlags Flags)
{
    public long FedAtNs => TimeNs + LateNs;
}

/// <summary>The matching rule in its slow and obvious form: all pairs of the whole record, sorted, closest first.</summary>
internal static class MatchingTwin
{
    /// <param name="fed">Events in the order in which they are fed.</param>
    /// <param name="windowNs">Largest distance, included.</param>
    /// <returns>For each event the index of its partner, or −1.</returns>
    public static int[] Partners(FedEvent[] fed, long windowNs)
    {
        var pairs = new List<(long Distance, long TruthNs, int Truth, long DetectionNs, int Detection)>();
        for (int t = 0; t < fed.Length; t++)
        {
            for (int d = 0; d < fed.Length; d++)
            {
                long distance = Math.Abs(fed[t].TimeNs - fed[d].TimeNs);
                if (fed[t].IsTruth && !fed[d].IsTruth && distance <= windowNs)
                {
                    pairs.Add((distance, fed[t].TimeNs, t, fed[d].TimeNs, d));
                }
            }
        }

        pairs.Sort();
        var partners = new int[fed.Length];
        Array.Fill(partners, -1);
        foreach (var pair in pairs)
        {
            if (partners[pair.Truth] < 0 && partners[pair.Detection] < 0)
            {
                partners[pair.Truth] = pair.Detection;
                partners[pair.Detection] = pair.Truth;
            }
        }

        return partners;
    }
}
