// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Tests.FailurePoints;

namespace SensorSim.Studies.Tests.Comparisons;

/// <summary>Pairs of detectors of which everything is known, on shared seeds.</summary>
internal static class Pairs
{
    public static StudyPlan Two(StudyPlan plan) => plan with { Detectors = [new DetectorChoice { Label = "a" }, new DetectorChoice { Label = "b" }] };

    /// <summary>Rows of two detectors: seeds and persons shift both alike, what a run adds is each one's own.</summary>
    public static ComparedPair Of(StudyPlan plan, KnownDetector first, KnownDetector second, int world)
    {
        StudyPlan two = Two(plan);
        return Of(two, Enumerable.Range(0, (int)two.RunCount).Select(run => (two.KeyOf(run).Detector == 0 ? first : second).Row(two, run, world)));
    }

    public static ComparedPair Of(StudyPlan two, IEnumerable<RunRow> rows) => new()
    {
        Results = new StudyResults(two, rows),
        Sides = [Side("a", 0), Side("b", 1)],
        Notes = [],
    };

    public static Comparison Compare(StudyPlan plan, KnownDetector first, KnownDetector second, int world = 1) => Comparison.Of(Of(plan, first, second, world));

    private static ComparedSide Side(string label, int index) => new(label, $"known {label}", "0", "0.0.0", 2, index);
}
