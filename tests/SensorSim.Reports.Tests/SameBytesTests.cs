// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Reports.Figures;

namespace SensorSim.Reports.Tests;

public class SameBytesTests
{
    [TestCase(FigureFormat.Png)]
    [TestCase(FigureFormat.Svg)]
    public void Write_SameInputTwice_GivesTheSameBytes(FigureFormat format)
    {
        byte[] first = All(format);
        byte[] second = All(format);
        Assert.That(second, Is.EqualTo(first));
    }

    [TestCase(FigureFormat.Png)]
    [TestCase(FigureFormat.Svg)]
    public void Write_OnFourThreads_GivesTheSameBytes(FigureFormat format)
    {
        byte[] expected = All(format);
        byte[][] results = new byte[4][];
        Parallel.For(0, results.Length, i => results[i] = All(format));
        Assert.That(results, Is.All.EqualTo(expected));
    }

    // German writes 0,5 where the invariant culture writes 0.5; Arabic (Egypt) may use other digits and signs.
    [TestCase("de-DE")]
    [TestCase("ar-EG")]
    [TestCase("sv-SE")]
    public void Write_OtherCulture_GivesTheSameBytes(string culture)
    {
        byte[] expected = All(FigureFormat.Svg);
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            Assert.That(All(FigureFormat.Svg), Is.EqualTo(expected));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Test]
    public void Write_OtherInput_GivesOtherBytes()
    {
        SignalPanel ecg = Samples.Ecg();
        SignalPanel moved = ecg with { DetectedMarks = [.. ecg.DetectedMarks.Select(mark => mark with { TimeS = mark.TimeS + 0.01 })] };
        Assert.That(Picture.Of([ecg]), Is.Not.EqualTo(Picture.Of([moved])));
    }

    [TestCase("figure.png", FigureFormat.Png)]
    [TestCase("figure.SVG", FigureFormat.Svg)]
    public void Write_ToAFile_WritesTheBytesOfTheStream(string name, FigureFormat format)
    {
        string folder = Directory.CreateTempSubdirectory("figure-test-").FullName;
        try
        {
            string path = Path.Combine(folder, name);
            SignalFigure.Write([Samples.Ecg()], "Title", path);
            Assert.That(File.ReadAllBytes(path), Is.EqualTo(Picture.Of([Samples.Ecg()], format)));
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Test]
    public void Write_OtherEnding_NamesTheFileAndTheTwoEndings()
    {
        Assert.That(
            () => SignalFigure.Write([Samples.Ecg()], "Title", "signals.jpg"),
            Throws.ArgumentException.With.Message.Contains("\"signals.jpg\": a figure's file name must end in .png or .svg"));
        Assert.That(File.Exists("signals.jpg"), Is.False);
    }

    [Test]
    public void WarmUp_Run_ChangesNoFigure()
    {
        byte[] before = Picture.Of(Samples.FiveSignals());
        FigureWarmUp.Run();
        Assert.That(Picture.Of(Samples.FiveSignals()), Is.EqualTo(before));
    }

    private static byte[] All(FigureFormat format) =>
    [
        .. Picture.Of(Samples.FiveSignals(), format),
        .. Picture.Of(Samples.ThreeErrors(), format),
        .. Picture.Of(Samples.TwoTrends(), format),
        .. Picture.Of(StripSamples.Mixed(), format),
    ];
}
