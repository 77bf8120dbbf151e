// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Studies.Plans.Arrangements;

/// <summary>
/// Points spread over all ranges: each range is divided into as many equal shares as there are points, each share has one point, at a random
/// place within it, and the shares of different keys are put together at random (McKay, Beckman, Conover 1979, from memory).
/// </summary>
internal static class LatinHypercube
{
    /// <summary>Values of one key in all points.</summary>
    /// <param name="varied">The key.</param>
    /// <param name="count">Number of points.</param>
    /// <param name="seed">Seed of the arrangement; keyed by the key's name, so one more key leaves the others as they are.</param>
    public static object[] Column(VariedKey varied, int count, ulong seed)
    {
        ulong ofKey = seed ^ SourceName.Hash(varied.Key.Name);
        int[] shares = Shuffled(count, new KeyedRandom(ofKey, "latin_hypercube.share"));
        var place = new KeyedRandom(ofKey, "latin_hypercube.place");
        var column = new object[count];
        for (int i = 0; i < count; i++)
        {
            column[i] = Value(varied, shares[i], place.Uniform(i), count);
        }

        return column;
    }

    private static object Value(VariedKey varied, int share, double place, int count)
    {
        if (!varied.IsRange)
        {
            return varied.Values[(int)((long)share * varied.Values.Count / count)];
        }

        double position = (share + place) / count;
        if (varied.Key is not NumberKey { IsWhole: true } || varied.IsInRatios)
        {
            return Levels.At(varied, position);
        }

        // Each whole number has an equal part of the range; rounding would give the two ends half of it.
        double low = Math.Ceiling(Math.Min(varied.From, varied.To));
        double high = Math.Floor(Math.Max(varied.From, varied.To));
        return Math.Min(high, low + Math.Floor(position * (high - low + 1)));
    }

    // Fisher and Yates; draw i decides the place of element i.
    private static int[] Shuffled(int count, KeyedRandom random)
    {
        int[] order = [.. Enumerable.Range(0, count)];
        for (int i = count - 1; i > 0; i--)
        {
            int other = (int)(((ulong)random.Word(i) * (ulong)(i + 1)) >> 32);
            (order[i], order[other]) = (order[other], order[i]);
        }

        return order;
    }
}
