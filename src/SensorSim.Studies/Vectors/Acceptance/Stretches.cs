// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>Arithmetic with lists of stretches. What comes out is in order of time, stretches apart from each other, none empty.</summary>
internal static class Stretches
{
    /// <summary>In order, with those that touch or lie at most a pause apart joined.</summary>
    public static List<Stretch> Joined(IEnumerable<Stretch> stretches, long pauseNs = 0)
    {
        var joined = new List<Stretch>();
        foreach (Stretch next in stretches.Where(s => s.LengthNs > 0).OrderBy(s => s.BeginNs).ThenBy(s => s.EndNs))
        {
            if (joined.Count > 0 && next.BeginNs - joined[^1].EndNs <= pauseNs)
            {
                joined[^1] = joined[^1] with { EndNs = Math.Max(joined[^1].EndNs, next.EndNs) };
            }
            else
            {
                joined.Add(next);
            }
        }

        return joined;
    }

    /// <summary>What lies in both.</summary>
    public static List<Stretch> Both(IReadOnlyList<Stretch> one, IReadOnlyList<Stretch> other)
    {
        var both = new List<Stretch>();
        for (int i = 0, j = 0; i < one.Count && j < other.Count;)
        {
            var common = new Stretch(Math.Max(one[i].BeginNs, other[j].BeginNs), Math.Min(one[i].EndNs, other[j].EndNs));
            if (common.LengthNs > 0)
            {
                both.Add(common);
            }

            if (one[i].EndNs < other[j].EndNs)
            {
                i++;
            }
            else
            {
                j++;
            }
        }

        return both;
    }

    /// <summary>What lies in the first list and not in the second.</summary>
    public static List<Stretch> Without(IReadOnlyList<Stretch> from, IReadOnlyList<Stretch> taken)
    {
        var left = new List<Stretch>();
        int first = 0;
        foreach (Stretch stretch in from)
        {
            while (first < taken.Count && taken[first].EndNs <= stretch.BeginNs)
            {
                first++;
            }

            long begin = stretch.BeginNs;
            for (int i = first; i < taken.Count && taken[i].BeginNs < stretch.EndNs; i++)
            {
                if (taken[i].BeginNs > begin)
                {
                    left.Add(new Stretch(begin, taken[i].BeginNs));
                }

                begin = Math.Max(begin, taken[i].EndNs);
            }

            if (begin < stretch.EndNs)
            {
                left.Add(new Stretch(begin, stretch.EndNs));
            }
        }

        return left;
    }

    /// <summary>Whether an instant lies in one of them.</summary>
    public static bool Contain(IReadOnlyList<Stretch> stretches, long timeNs)
    {
        int low = 0;
        int high = stretches.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (stretches[middle].EndNs <= timeNs)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low < stretches.Count && stretches[low].BeginNs <= timeNs;
    }
}
