// SPDX-License-Identifier: MIT
using SensorSim.Reports.Charts;
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Tests.Charts;

public class AxisScaleTests
{
    [Test]
    public void Share_InRatios_PutsEqualFactorsAtEqualDistances()
    {
        AxisScale scale = AxisScale.Of(Of(0.1, 10), true, 7, 0);
        Assert.That(scale.Share(0.1), Is.EqualTo(0).Within(1e-12));
        Assert.That(scale.Share(1), Is.EqualTo(0.5).Within(1e-12));
        Assert.That(scale.Share(10), Is.EqualTo(1).Within(1e-12));
        Assert.That(scale.Labels, Is.EqualTo(new[] { "0.1", "0.2", "0.5", "1", "2", "5", "10" }));
    }

    [Test]
    public void Share_RatiosThatTouchZero_IsEven() => Assert.That(AxisScale.Of(Of(0, 10), true, 7, 0).Share(5), Is.EqualTo(0.5).Within(1e-12));

    // Odds of 0.9 are 9, of 0.99 are 99: their logarithms are as far apart as those of 0.99 and 0.999 but for one part in a hundred.
    [Test]
    public void OfFigure_SharesNearALimit_GoByLogOdds()
    {
        AxisScale scale = AxisScale.OfFigure(Of(0.3, 1), true, 0.99, 7, 0.05);
        double step = scale.Share(0.99) - scale.Share(0.9);
        Assert.That(step, Is.EqualTo((Math.Log(99) - Math.Log(9)) / (Math.Log(0.99875 / 0.00125) - Math.Log(0.3 / 0.7)) / 1.1).Within(1e-9));
        Assert.That(scale.Share(1), Is.EqualTo(scale.Share(0.9999)).And.InRange(0.9, 0.999), "nearer to 1 than the end: at the end, inside the frame");
        Assert.That(scale.Labels, Has.Member("0.99").And.Member("1"));
    }

    [TestCase(0.95, 1.0, true, 0.99, Description = "all of it near the limit")]
    [TestCase(0.3, 1.0, true, 0.5, Description = "a limit far from 1")]
    [TestCase(0.3, 20, false, 0.99, Description = "no share")]
    public void OfFigure_Else_IsEven(double low, double high, bool isShare, double limit)
    {
        AxisScale scale = AxisScale.OfFigure(Of(low, high), isShare, limit, 7, 0);
        Assert.That(scale.Share((low + high) / 2), Is.EqualTo(0.5).Within(1e-12));
    }

    [Test]
    public void OfPlaces_Words_HaveEqualRoom()
    {
        AxisScale scale = AxisScale.OfPlaces(["a", "b", "c"]);
        Assert.That(scale.Share(1), Is.EqualTo(0.5).Within(1e-12));
        Assert.That(scale.Share(2) - scale.Share(1), Is.EqualTo(1 / 3.0).Within(1e-12));
    }

    private static Span Of(double low, double high)
    {
        Span span = new();
        span.Include(low);
        span.Include(high);
        return span;
    }
}
