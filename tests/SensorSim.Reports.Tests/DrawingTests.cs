// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;

namespace SensorSim.Reports.Tests;

public class DrawingTests
{
    [TestCase(10, 10, 1)]
    [TestCase(0.13, 5, 0.05)]
    [TestCase(604800, 10, 100000)]
    [TestCase(3, 5, 1)]
    [TestCase(2.6e-3, 6, 5e-4)]
    public void Step_Span_IsRoundAndGivesNoMoreThanAsked(double span, int most, double expected)
    {
        Assert.That(NiceTicks.Step(span, most), Is.EqualTo(expected).Within(1e-9 * expected));
    }

    [Test]
    public void Labels_Fractions_CarryTheDecimalsOfTheStep()
    {
        double[] positions = NiceTicks.Positions(-0.06, 0.16, 0.05);
        Assert.That(NiceTicks.Labels(positions, 0.05), Is.EqualTo(new[] { "-0.05", "0.00", "0.05", "0.10", "0.15" }));
    }

    [Test]
    public void Labels_OneTick_StillShowsItsDecimals()
    {
        Assert.That(NiceTicks.Labels([0.5], 0.5), Is.EqualTo(new[] { "0.5" }));
    }

    [Test]
    public void RunsOf_EvenSamples_AreOneRun()
    {
        double[] times = [.. Enumerable.Range(0, 50).Select(i => i / 250.0)];
        Assert.That(Runs.Of(times, new double[50]), Is.EqualTo(new[] { new Run(0, 50) }));
    }

    [Test]
    public void RunsOf_OneMissingSample_CutsThere()
    {
        Assert.That(Runs.Of([0, 1, 2, 3, 5, 6, 7], new double[7]), Is.EqualTo(new[] { new Run(0, 4), new Run(4, 3) }));
    }

    [Test]
    public void RunsOf_TwoGapsAroundOneSample_KeepsTheSampleAlone()
    {
        Assert.That(
            Runs.Of([0, 1, 2, 9, 20, 21, 22], new double[7]),
            Is.EqualTo(new[] { new Run(0, 3), new Run(3, 1), new Run(4, 3) }));
    }

    [Test]
    public void RunsOf_LowerRateFromHereOn_IsNoGap()
    {
        Assert.That(Runs.Of([0, 1, 2, 3, 7, 11, 15, 19], new double[8]), Is.EqualTo(new[] { new Run(0, 8) }));
        Assert.That(Runs.Of([0, 4, 8, 12, 13, 14, 15], new double[7]), Is.EqualTo(new[] { new Run(0, 7) }));
    }

    [Test]
    public void RunsOf_GapBesideTheFirstOrTheLastSample_CutsThere()
    {
        Assert.That(Runs.Of([0, 9, 10, 11], new double[4]), Is.EqualTo(new[] { new Run(0, 1), new Run(1, 3) }));
        Assert.That(Runs.Of([0, 1, 2, 9], new double[4]), Is.EqualTo(new[] { new Run(0, 3), new Run(3, 1) }));
    }

    [Test]
    public void RunsOf_NaN_CutsAndIsLeftOut()
    {
        double nan = double.NaN;
        Assert.That(
            Runs.Of([0, 1, 2, 3, 4, 5], [nan, 1, nan, nan, 1, 1]),
            Is.EqualTo(new[] { new Run(1, 1), new Run(4, 2) }));
    }

    [Test]
    public void RunsOf_NoSamples_IsEmpty()
    {
        Assert.That(Runs.Of([], []), Is.Empty);
    }

    [Test]
    public void PlotFont_AnyFamily_IsTheEmbeddedOne()
    {
        PlotFont.Register();
        Assert.That(PlotFont.Typeface.FamilyName, Is.EqualTo("DejaVu Sans"));
        Assert.That(ScottPlot.Fonts.GetTypeface("Some Other Font", true, true), Is.SameAs(PlotFont.Typeface));
        Assert.That(PlotFont.Typeface.ContainsGlyphs("Aäµ±·−0"), Is.True);
    }

    [Test]
    public void PlotFont_Licence_LiesBesideTheProgram()
    {
        string path = Path.Combine(AppContext.BaseDirectory, "Fonts", "DejaVuSans-LICENSE.txt");
        Assert.That(File.ReadAllText(path), Does.Contain("Bitstream Vera Fonts Copyright").And.Contain("Arev Fonts Copyright"));
    }
}
