// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Net;
using System.Security;
using System.Text;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>Makes the drawing library's SVG fit for pages and other machines.</summary>
internal static class SvgText
{
    // Verdana has nearly the same widths; after it whatever the reader has.
    private const string Families = PlotFont.FamilyName + ", Verdana, sans-serif";
    private const string TextBegin = "<text ";
    private const string TextEnd = "</text>";

    private const string ClipName = "cl_";

    /// <summary>Adds a view box (so that it scales), a title for readers of screens, and texts that any font can show; counts the clips anew.</summary>
    internal static string Finish(string svg, string title, int heightPx)
    {
        string size = string.Create(CultureInfo.InvariantCulture, $"width=\"{Ink.WidthPx}\" height=\"{heightPx}\"");
        int sizeAt = svg.IndexOf(size, StringComparison.Ordinal);
        int bodyAt = sizeAt < 0 ? -1 : svg.IndexOf('>', sizeAt);
        if (bodyAt < 0)
        {
            throw new InvalidOperationException("The SVG canvas no longer starts with the size of the page.");
        }

        StringBuilder finished = new(svg.Length);
        finished.Append(svg, 0, sizeAt + size.Length);
        finished.Append(CultureInfo.InvariantCulture, $" viewBox=\"0 0 {Ink.WidthPx} {heightPx}\" role=\"img\"");
        finished.Append(svg, sizeAt + size.Length, bodyAt + 1 - (sizeAt + size.Length));
        finished.Append("\n<title>").Append(SecurityElement.Escape(title)).Append("</title>");
        AppendBody(finished, svg, bodyAt + 1);
        return finished.ToString().ReplaceLineEndings("\n");
    }

    private static void AppendBody(StringBuilder finished, string svg, int from)
    {
        List<string> clips = [];
        for (int at = svg.IndexOf(TextBegin, from, StringComparison.Ordinal); at >= 0; at = svg.IndexOf(TextBegin, from, StringComparison.Ordinal))
        {
            int end = svg.IndexOf(TextEnd, at, StringComparison.Ordinal) + TextEnd.Length;
            AppendShapes(finished, svg[from..at], clips);
            AppendText(finished, svg[at..end]);
            from = end;
        }

        AppendShapes(finished, svg[from..], clips);
    }

    /// <summary>Renames the clips 1, 2, 3 ...: the canvas numbers them through the life of the process, so no two files would be the same.</summary>
    private static void AppendShapes(StringBuilder finished, string shapes, List<string> clips)
    {
        int from = 0;
        for (int at = shapes.IndexOf(ClipName, StringComparison.Ordinal); at >= 0; at = shapes.IndexOf(ClipName, from, StringComparison.Ordinal))
        {
            int number = at + ClipName.Length;
            int end = number;
            while (char.IsAsciiHexDigit(shapes[end]))
            {
                end++;
            }

            string name = shapes[number..end];
            int index = clips.IndexOf(name);
            if (index < 0)
            {
                index = clips.Count;
                clips.Add(name);
            }

            finished.Append(shapes, from, number - from).Append(CultureInfo.InvariantCulture, $"{index + 1}");
            from = end;
        }

        finished.Append(shapes, from, shapes.Length - from);
    }

    /// <summary>Rewrites one text element.</summary>
    /// <remarks>
    /// The canvas gives every letter its own place, in lists that end in a comma, which the standard does not allow and some readers
    /// refuse. One place and one length say the same: another font is then stretched to the same length instead of torn apart.
    /// </remarks>
    private static void AppendText(StringBuilder finished, string element)
    {
        int open = element.IndexOf('>', StringComparison.Ordinal);
        string content = element[(open + 1)..^TextEnd.Length].Trim('\n', '\r', '\t');
        float sizePx = float.Parse(Attribute(element, "font-size"), CultureInfo.InvariantCulture);
        using SKFont font = PlotFont.Sized(sizePx);
        float lengthPx = font.MeasureText(WebUtility.HtmlDecode(content));
        finished.Append(TextBegin).Append("fill=\"").Append(Attribute(element, "fill")).Append('"');
        string transform = Attribute(element, "transform");
        if (transform.Length > 0)
        {
            finished.Append(" transform=\"").Append(transform).Append('"');
        }

        finished.Append(" font-size=\"").Append(Attribute(element, "font-size"));
        finished.Append("\" font-family=\"").Append(Families);
        finished.Append("\" x=\"").Append(First(Attribute(element, "x")));
        finished.Append("\" y=\"").Append(First(Attribute(element, "y")));
        finished.Append(CultureInfo.InvariantCulture, $"\" textLength=\"{lengthPx:0.##}\" lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">");
        finished.Append(content).Append(TextEnd);
    }

    private static string Attribute(string element, string name)
    {
        string key = " " + name + "=\"";
        int at = element.IndexOf(key, StringComparison.Ordinal);
        if (at < 0)
        {
            return "";
        }

        int from = at + key.Length;
        return element[from..element.IndexOf('"', from)];
    }

    private static string First(string list)
    {
        int comma = list.IndexOf(',', StringComparison.Ordinal);
        return comma < 0 ? list : list[..comma];
    }
}
