// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.StudyFiles;

namespace SensorSim.Studies.Plans.Arrangements;

/// <summary>Makes the points of a study.</summary>
internal static class Arrangement
{
    /// <summary>Most points of a study.</summary>
    public const int MostPoints = 100_000;

    /// <summary>What is varied, with its values.</summary>
    public static IReadOnlyList<Factor> Factors(IReadOnlyList<VariedKey> varied, bool isHypercube) =>
    [
        .. varied.Select(v => new Factor(v.Key, isHypercube && v.IsRange ? [v.From, v.To] : Levels.Of(v)) { IsInRatios = v.IsInRatios }),
    ];

    /// <summary>Every combination; what is varied first varies slowest.</summary>
    public static IReadOnlyList<StudyPoint> Grid(IReadOnlyList<Factor> factors)
    {
        int count = factors.Aggregate(1, (product, f) => product * f.Levels.Count);
        var points = new StudyPoint[count];
        for (int i = 0; i < count; i++)
        {
            var values = new object[factors.Count];
            int rest = i;
            for (int f = factors.Count - 1; f >= 0; f--)
            {
                (rest, int level) = Math.DivRem(rest, factors[f].Levels.Count);
                values[f] = factors[f].Levels[level];
            }

            points[i] = new StudyPoint(i, values);
        }

        return points;
    }

    /// <summary>The base point, then each key's values with all others at their base; the base point stands once.</summary>
    /// <param name="factors">What is varied.</param>
    /// <param name="baseValues">A value for each of them.</param>
    public static IReadOnlyList<StudyPoint> OneAtATime(IReadOnlyList<Factor> factors, IReadOnlyList<object> baseValues)
    {
        var points = new List<StudyPoint> { new(0, baseValues) };
        for (int f = 0; f < factors.Count; f++)
        {
            foreach (object level in factors[f].Levels.Where(l => !l.Equals(baseValues[f])))
            {
                object[] values = [.. baseValues];
                values[f] = level;
                points.Add(new StudyPoint(points.Count, values));
            }
        }

        return points;
    }

    /// <summary>A Latin hypercube.</summary>
    /// <param name="varied">What is varied.</param>
    /// <param name="count">Number of points.</param>
    /// <param name="seed">Its seed.</param>
    public static IReadOnlyList<StudyPoint> Hypercube(IReadOnlyList<VariedKey> varied, int count, ulong seed)
    {
        object[][] columns = [.. varied.Select(v => LatinHypercube.Column(v, count, seed))];
        return [.. Enumerable.Range(0, count).Select(i => new StudyPoint(i, [.. columns.Select(c => c[i])]))];
    }
}
