// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;

namespace SensorSim.Reports.StudyReports;

/// <summary>How the points of a study lie.</summary>
internal enum LayoutKind
{
    /// <summary>Nothing varies.</summary>
    OnePoint,

    /// <summary>Every combination of the levels.</summary>
    Grid,

    /// <summary>A base point, and points that differ from it in one key.</summary>
    EachAlone,

    /// <summary>Anywhere.</summary>
    Scattered,
}

/// <summary>Reads from the points themselves how they lie, so that the figures fit whatever made them.</summary>
internal sealed class PointLayout
{
    internal PointLayout(StudyPlan plan)
    {
        Plan = plan;
        Levels = [.. plan.Factors.Select((_, i) => LevelsOf(plan, i))];
        Varied = [.. Enumerable.Range(0, plan.Factors.Count).Where(i => Levels[i].Count > 1)];
        Base = Varied.Count > 1 ? FindBase(plan) : -1;
        Kind = Varied.Count == 0 ? LayoutKind.OnePoint : IsGrid() ? LayoutKind.Grid : Base >= 0 ? LayoutKind.EachAlone : LayoutKind.Scattered;
    }

    internal StudyPlan Plan { get; }

    internal LayoutKind Kind { get; }

    /// <summary>Values of each factor that occur: numbers ascending, words in the order of the points.</summary>
    internal IReadOnlyList<IReadOnlyList<object>> Levels { get; }

    /// <summary>Factors that have more than one value.</summary>
    internal IReadOnlyList<int> Varied { get; }

    /// <summary>The base point of <see cref="LayoutKind.EachAlone"/>; −1 when there is none.</summary>
    internal int Base { get; }

    /// <summary>Place of a point's value among the levels of a factor.</summary>
    internal int Place(StudyPoint point, int factor)
    {
        for (int i = 0; i < Levels[factor].Count; i++)
        {
            if (Levels[factor][i].Equals(point.Values[factor]))
            {
                return i;
            }
        }

        throw new ArgumentException("The point is not of this plan.", nameof(point));
    }

    private bool IsGrid()
    {
        double combinations = Levels.Aggregate(1.0, (product, l) => product * l.Count);
        return combinations == Plan.Points.Count
            && Plan.Points.Select(p => string.Join('\n', Enumerable.Range(0, Levels.Count).Select(f => Place(p, f)))).Distinct(StringComparer.Ordinal).Count() == Plan.Points.Count;
    }

    private static object[] LevelsOf(StudyPlan plan, int factor)
    {
        IEnumerable<object> distinct = plan.Points.Select(p => p.Values[factor]).Distinct();
        return plan.Factors[factor].IsNumber ? [.. distinct.OrderBy(v => (double)v)] : [.. distinct];
    }

    // The base stands first by custom; any point that all others are neighbours of will do.
    private static int FindBase(StudyPlan plan)
    {
        const int MostTried = 32;
        for (int candidate = 0; candidate < Math.Min(MostTried, plan.Points.Count); candidate++)
        {
            IReadOnlyList<object> values = plan.Points[candidate].Values;
            if (plan.Points.All(p => p.Values.Zip(values).Count(v => !v.First.Equals(v.Second)) <= 1))
            {
                return candidate;
            }
        }

        return -1;
    }
}
