// SPDX-License-Identifier: MIT
using System.Xml.Linq;
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;

namespace SensorSim.Reports.Tests;

public class SvgTests
{
    [Test]
    public void Write_Svg_HasTitlesUnitsLegendsAndNumbersAsText()
    {
        string[] texts = Picture.Texts(Picture.Of(Samples.FiveSignals(), FigureFormat.Svg, "First seconds"));
        string[] expected =
            ["First seconds", "ECG (mV)", "R peak, true", "R peak, detected", "Infrared light (ADC codes)", "time (s)", "182000", "0.5", "knock"];
        Assert.That(texts, Is.SupersetOf(expected));
    }

    [Test]
    public void Write_TitleWithMarkup_IsEscaped()
    {
        byte[] svg = Picture.Of([Samples.Ecg()], FigureFormat.Svg, "a <b> & \"c\"");
        Assert.That(Picture.Texts(svg), Has.Member("a <b> & \"c\""));
        Assert.That(Picture.Xml(svg).Root!.Elements().First().Value, Is.EqualTo("a <b> & \"c\""));
    }

    [Test]
    public void Write_Svg_ScalesAndFallsBackToOtherFonts()
    {
        XElement root = Picture.Xml(Picture.Of(Samples.TwoTrends(), FigureFormat.Svg)).Root!;
        Assert.That(root.Attribute("viewBox")!.Value, Is.EqualTo($"0 0 {root.Attribute("width")!.Value} {root.Attribute("height")!.Value}"));
        foreach (XElement text in root.Descendants().Where(e => e.Name.LocalName == "text"))
        {
            Assert.That(text.Attribute("font-family")!.Value, Is.EqualTo("DejaVu Sans, Verdana, sans-serif"));
        }
    }

    // SVG 1.1 (W3C, second edition), 10.5: x and y are lists of coordinates, and a list (4.2) does not end in a separator.
    [Test]
    public void Write_Svg_GivesEachTextOnePlaceAndALength()
    {
        foreach (XElement text in Picture.Xml(Picture.Of(Samples.ThreeErrors(), FigureFormat.Svg)).Descendants().Where(e => e.Name.LocalName == "text"))
        {
            Assert.That(double.TryParse(text.Attribute("x")!.Value, System.Globalization.CultureInfo.InvariantCulture, out _), Is.True);
            Assert.That(double.TryParse(text.Attribute("y")!.Value, System.Globalization.CultureInfo.InvariantCulture, out _), Is.True);
            double length = double.Parse(text.Attribute("textLength")!.Value, System.Globalization.CultureInfo.InvariantCulture);
            Assert.That(length, Is.InRange(4.0 * text.Value.Length, 20.0 * text.Value.Length), text.Value);
        }
    }

    [Test]
    public void Write_Svg_DrawsNoTextTwiceAtOnePlace()
    {
        XElement root = Picture.Xml(Picture.Of(Samples.FiveSignals(), FigureFormat.Svg)).Root!;
        string[] places = [.. root.Descendants().Where(e => e.Name.LocalName == "text").Select(e => $"{e.Attribute("transform")?.Value} {e.Attribute("x")!.Value} {e.Attribute("y")!.Value} {e.Value}")];
        Assert.That(places, Is.Unique);
    }

    [Test]
    public void Write_LineEndings_AreLineFeedsOnly()
    {
        Assert.That(Picture.Of([Samples.Ecg()], FigureFormat.Svg), Has.No.Member((byte)'\r'));
    }

    [Test]
    public void Finish_UnknownHead_IsRefused()
    {
        Assert.That(() => SvgText.Finish("<svg></svg>", "t", 100), Throws.InvalidOperationException);
    }
}
