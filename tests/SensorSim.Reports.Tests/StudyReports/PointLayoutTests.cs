// SPDX-License-Identifier: MIT
using SensorSim.Reports.StudyReports;
using SensorSim.Studies.Plans;

namespace SensorSim.Reports.Tests.StudyReports;

public class PointLayoutTests
{
    private static readonly Factor[] s_two = [StudySamples.Factor(StudySamples.MuscleKey, 6.0), StudySamples.Factor(StudySamples.RateKey, 70.0)];

    private static object[][] Points(params (double Noise, double Rate)[] points) => [.. points.Select(p => new object[] { p.Noise, p.Rate })];

    [Test]
    public void Kind_FromPoints_IsFound()
    {
        Assert.That(Of((6, 70)).Kind, Is.EqualTo(LayoutKind.OnePoint));
        Assert.That(Of((6, 70), (0, 70), (-6, 70)).Kind, Is.EqualTo(LayoutKind.Grid), "one key varies, one is held");
        Assert.That(Of((6, 70), (6, 90), (0, 70), (0, 90)).Kind, Is.EqualTo(LayoutKind.Grid));
        Assert.That(Of((6, 70), (0, 70), (6, 90)).Kind, Is.EqualTo(LayoutKind.EachAlone));
        Assert.That(Of((6, 70), (0, 80), (3, 90), (7, 100)).Kind, Is.EqualTo(LayoutKind.Scattered));
        Assert.That(Of((6, 70), (6, 90), (0, 70), (3, 91)).Kind, Is.EqualTo(LayoutKind.Scattered), "as many points as a grid of 2 by 2, but another place");
    }

    [Test]
    public void Base_NotFirst_IsFound() => Assert.That(Of((0, 70), (6, 70), (6, 90), (3, 70)).Base, Is.EqualTo(1));

    [Test]
    public void Levels_OfNumbers_Ascend()
    {
        PointLayout layout = Of((6, 70), (-6, 70), (0, 70));
        Assert.That(layout.Levels[0], Is.EqualTo(new object[] { -6.0, 0.0, 6.0 }));
        Assert.That(layout.Place(layout.Plan.Points[0], 0), Is.EqualTo(2));
    }

    private static PointLayout Of(params (double Noise, double Rate)[] points) => new(StudySamples.Plan(1, ["ours"], s_two, Points(points)));
}
