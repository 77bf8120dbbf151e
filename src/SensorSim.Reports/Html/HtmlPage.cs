// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;

namespace SensorSim.Reports.Html;

/// <summary>Builds one page that needs nothing but itself: style inside, pictures as vectors inside, no script.</summary>
/// <remarks>Every text goes through an encoder. The page is well-formed XML too, so that any reader can take it apart.</remarks>
internal sealed class HtmlPage
{
    // A page with more rows than this is slow to show and long to print; the file has them all.
    private const int MostRows = 150;

    private static readonly HtmlEncoder s_encoder = HtmlEncoder.Create(UnicodeRanges.All);

    private readonly string _title;
    private readonly string _folder;
    private readonly StringBuilder _body = new();
    private readonly List<(string Id, string Text)> _sections = [];
    private int _figureCount;

    /// <summary>Starts a page.</summary>
    /// <param name="title">Headline.</param>
    /// <param name="folder">Folder beside the page in which its figures and tables lie.</param>
    internal HtmlPage(string title, string folder = "report") => (_title, _folder) = (title, folder);

    /// <summary>Starts a section, which the list of contents names.</summary>
    internal void Section(string text)
    {
        string id = string.Create(CultureInfo.InvariantCulture, $"s{_sections.Count + 1}");
        _sections.Add((id, text));
        _body.Append(CultureInfo.InvariantCulture, $"<h2 id=\"{id}\">{Safe(text)}</h2>\n");
    }

    internal void Heading(string text) => _body.Append(CultureInfo.InvariantCulture, $"<h3>{Safe(text)}</h3>\n");

    internal void Paragraph(string text, string? style = null)
    {
        string attribute = style is null ? "" : $" class=\"{style}\"";
        _body.Append(CultureInfo.InvariantCulture, $"<p{attribute}>{Safe(text)}</p>\n");
    }

    internal void List(IEnumerable<string> lines, bool isNumbered = false)
    {
        string tag = isNumbered ? "ol" : "ul";
        _body.Append('<').Append(tag).Append(">\n");
        foreach (string line in lines)
        {
            _body.Append(CultureInfo.InvariantCulture, $"<li>{Safe(line)}</li>\n");
        }

        _body.Append("</").Append(tag).Append(">\n");
    }

    /// <summary>Names and what they are, in two columns.</summary>
    internal void Facts(IEnumerable<(string Name, string Text)> facts)
    {
        _body.Append("<table class=\"facts\">\n<tbody>\n");
        foreach ((string name, string text) in facts)
        {
            _body.Append(CultureInfo.InvariantCulture, $"<tr><th scope=\"row\">{Safe(name)}</th><td>{Safe(text)}</td></tr>\n");
        }

        _body.Append("</tbody>\n</table>\n");
    }

    internal void Table(Table table)
    {
        // Short tables stay on one page; long ones repeat their headings.
        _body.Append(CultureInfo.InvariantCulture, $"<table id=\"{Safe(table.Name)}\"{(table.Rows.Count <= 12 ? " class=\"whole\"" : "")}>\n<caption>{Safe(table.Caption)}</caption>\n<thead>\n<tr>");
        int[] shown = [.. Enumerable.Range(0, table.Columns.Count).Where(table.IsShown)];
        foreach (int i in shown)
        {
            _body.Append(CultureInfo.InvariantCulture, $"<th scope=\"col\"{Side(table.Columns[i])}>{Breakable(table.Columns[i].Heading)}</th>");
        }

        _body.Append("</tr>\n</thead>\n<tbody>\n");
        foreach (IReadOnlyList<Cell> row in table.Rows.Take(MostRows))
        {
            _body.Append("<tr>");
            foreach (int i in shown)
            {
                _body.Append(CultureInfo.InvariantCulture, $"<td{Side(table.Columns[i])}>{Breakable(row[i].Page)}</td>");
            }

            _body.Append("</tr>\n");
        }

        _body.Append("</tbody>\n</table>\n");
        int left = table.Rows.Count - MostRows;
        Paragraph(left > 0
            ? FormattableString.Invariant($"{left} more rows are in the file {_folder}/tables/{table.Name}.csv, with all digits.")
            : $"With all digits: {_folder}/tables/{table.Name}.csv", "file");
    }

    /// <summary>A picture with its number and what is to be known about it.</summary>
    /// <param name="svg">The picture as a file.</param>
    /// <param name="name">Name of its files, without ending.</param>
    /// <param name="captions">Sentences under it.</param>
    internal void Figure(byte[] svg, string name, IReadOnlyList<string> captions)
    {
        _figureCount++;
        string prefix = string.Create(CultureInfo.InvariantCulture, $"f{_figureCount}_");
        _body.Append(CultureInfo.InvariantCulture, $"<figure id=\"{Safe(name)}\">\n").Append(InlineSvg.Of(Encoding.UTF8.GetString(svg), prefix));
        _body.Append(CultureInfo.InvariantCulture, $"\n<figcaption><b>Figure {_figureCount}.</b> {Safe(string.Join(' ', captions))} <span class=\"file\">{_folder}/figures/{Safe(name)}.svg, .png</span></figcaption>\n</figure>\n");
    }

    /// <summary>The whole page.</summary>
    internal string Finish()
    {
        var text = new StringBuilder();
        text.Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
        text.Append(CultureInfo.InvariantCulture, $"<title>{Safe(_title)}</title>\n<style>\n{PageStyle.Text}</style>\n</head>\n<body>\n<main>\n<h1>{Safe(_title)}</h1>\n");
        text.Append("<nav>\n<ol>\n");
        foreach ((string id, string heading) in _sections)
        {
            text.Append(CultureInfo.InvariantCulture, $"<li><a href=\"#{id}\">{Safe(heading)}</a></li>\n");
        }

        text.Append("</ol>\n</nav>\n").Append(_body).Append("</main>\n</body>\n</html>\n");
        return text.ToString();
    }

    private static string Side(Column column) => column.IsNumber ? " class=\"n\"" : "";

    private static string Safe(string text) => s_encoder.Encode(Printable(text));

    // Keys are long words without a space: they may break after a dot before a letter, and after an underscore.
    private static string Breakable(string text)
    {
        string safe = Safe(text);
        var broken = new StringBuilder(safe.Length);
        for (int i = 0; i < safe.Length; i++)
        {
            broken.Append(safe[i]);
            if (safe[i] == '_' || (safe[i] == '.' && i + 1 < safe.Length && char.IsAsciiLetterLower(safe[i + 1])))
            {
                broken.Append("<wbr/>");
            }
        }

        return broken.ToString();
    }

    // What XML does not allow cannot be written even with an escape: control characters of a detector's message, half of a pair.
    private static string Printable(string text)
    {
        if (text.All(c => System.Xml.XmlConvert.IsXmlChar(c)))
        {
            return text;
        }

        var kept = new StringBuilder(text.Length);
        for (int i = 0; i < text.Length; i++)
        {
            if (System.Xml.XmlConvert.IsXmlChar(text[i]))
            {
                kept.Append(text[i]);
            }
            else if (i + 1 < text.Length && System.Xml.XmlConvert.IsXmlSurrogatePair(text[i + 1], text[i]))
            {
                kept.Append(text[i]).Append(text[++i]);
            }
            else
            {
                kept.Append('\uFFFD');
            }
        }

        return kept.ToString();
    }
}
