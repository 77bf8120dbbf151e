// SPDX-License-Identifier: MIT
using SensorSim.Reports.StudyReports;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.Tests.StudyReports;

/// <summary>The fitted curve of a bias is that of its magnitude; drawn, it goes where the signs of the levels stand.</summary>
[TestFixture]
public sealed class LevelFiguresTests
{
    private static readonly (double Level, double Figure)[] s_curve = [(0, 1), (5, 2), (10, 3)];

    [TestCase(new double[] { 1, 2, 3 }, new double[] { 1, 2, 3 })]
    [TestCase(new double[] { -1, -2, -3 }, new double[] { -1, -2, -3 })]
    [TestCase(new double[] { -1, 0, -3 }, new double[] { -1, -2, -3 })]
    [TestCase(new double[] { -1, 2, 3 }, new double[] { })]
    public void CurveOf_FigureWithASign_GoesWithTheFigures(double[] figures, double[] expected) =>
        Assert.That(LevelFigures.CurveOf(Point(figures)).Select(c => c.Figure), Is.EqualTo(expected));

    private static FailurePoint Point(double[] figures) => new()
    {
        Requirement = new RequirementOnRow(RequirementKeys.All.First(r => r.Key.Key == "arrival_time_bias_ms_max"), 2.5, ChannelName.Infrared),
        Detector = 0,
        Factor = new Factor(new NumberKey { Name = "a.b", Unit = "", Meaning = "", Source = "", Minimum = 0, Maximum = 10, Default = 0 }, [0.0, 5.0, 10.0]),
        Held = [],
        State = FailurePointState.Found,
        Levels = [.. figures.Select((f, i) => new LevelFigure(i, 5 * i, f, null, 1, 1))],
        Curve = s_curve,
        Definition = "",
    };
}
