// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.FailurePoints;

/// <summary>Points of a study that differ in the level of one numeric key only.</summary>
/// <param name="Factor">That key.</param>
/// <param name="Held">The other varied keys with the values at which they are held.</param>
/// <param name="Points">Levels and indices of points, in ascending order of levels.</param>
internal sealed record SearchGroup(Factor Factor, IReadOnlyList<(Factor Factor, object Value)> Held, IReadOnlyList<(double Level, int Point)> Points)
{
    /// <summary>All groups of a plan in which the key has at least two levels, in order of keys, then of first points.</summary>
    /// <param name="plan">The plan.</param>
    public static IReadOnlyList<SearchGroup> Of(StudyPlan plan)
    {
        var groups = new List<SearchGroup>();
        for (int f = 0; f < plan.Factors.Count; f++)
        {
            if (!plan.Factors[f].IsNumber)
            {
                continue;
            }

            int own = f;
            var byHeld = plan.Points.GroupBy(p => new HeldValues([.. p.Values.Where((_, i) => i != own)]));
            foreach (IGrouping<HeldValues, StudyPoint> group in byHeld)
            {
                (double Level, int Point)[] points = [.. group.Select(p => ((double)p.Values[own], p.Index)).OrderBy(p => p.Item1).DistinctBy(p => p.Item1)];
                if (points.Length >= 2)
                {
                    groups.Add(new SearchGroup(plan.Factors[own], [.. plan.Factors.Where((_, i) => i != own).Zip(group.Key.Values)], points));
                }
            }
        }

        return groups;
    }

    private sealed record HeldValues(object[] Values)
    {
        public bool Equals(HeldValues? other) => other is not null && Values.SequenceEqual(other.Values);

        public override int GetHashCode()
        {
            var hash = default(HashCode);
            foreach (object value in Values)
            {
                hash.Add(value);
            }

            return hash.ToHashCode();
        }
    }
}
