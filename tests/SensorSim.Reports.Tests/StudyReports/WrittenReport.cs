// SPDX-License-Identifier: MIT
using System.Xml.Linq;
using SensorSim.Reports.StudyReports;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.Tests.StudyReports;

/// <summary>A report in a folder of its own, read back.</summary>
internal sealed class WrittenReport : IDisposable
{
    internal WrittenReport(StudyResults results, IReadOnlyList<FailurePoint> points, StudyReportOptions? options = null)
    {
        Folder = Directory.CreateTempSubdirectory("study-report-").FullName;
        StudyReport.Write(PathOf, results, points, options ?? new StudyReportOptions());
        Html = File.ReadAllText(Path.Combine(Folder, "report.html"));
    }

    internal string Folder { get; }

    internal string Html { get; }

    internal XDocument Page => XDocument.Parse(Html);

    /// <summary>Names of all files, with their folders, in order.</summary>
    internal string[] Files =>
        [.. Directory.EnumerateFiles(Folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(Folder, f).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    internal byte[] Bytes(string name) => File.ReadAllBytes(Path.Combine(Folder, name));

    /// <summary>Rows of a file of a table; the first one has the names. No field of the samples has a line end in it.</summary>
    internal string[][] Csv(string name) =>
        [.. File.ReadAllText(Path.Combine(Folder, "report", "tables", name + ".csv")).TrimEnd('\n').Split('\n').Select(Fields)];

    /// <summary>One column of a file, without its name.</summary>
    internal string[] Column(string name, string column)
    {
        string[][] rows = Csv(name);
        int at = Array.IndexOf(rows[0], column);
        Assert.That(at, Is.GreaterThanOrEqualTo(0), column);
        return [.. rows.Skip(1).Select(r => r[at])];
    }

    /// <summary>Headings and rows of a table of the page.</summary>
    internal (string[] Headings, string[][] Rows) Table(string name)
    {
        XElement table = Page.Descendants("table").Single(t => t.Attribute("id")?.Value == name);
        return (
            [.. table.Element("thead")!.Descendants("th").Select(h => h.Value)],
            [.. table.Element("tbody")!.Elements("tr").Select(r => r.Elements("td").Select(d => d.Value).ToArray())]);
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    // RFC 4180: a field with a comma or a quotation mark stands between quotation marks, which are doubled inside.
    private static string[] Fields(string line)
    {
        List<string> fields = [""];
        bool isQuoted = false;
        foreach (char c in line)
        {
            if (c == '"')
            {
                isQuoted = !isQuoted;
            }
            else if (c == ',' && !isQuoted)
            {
                fields.Add("");
            }
            else
            {
                fields[^1] += c;
            }
        }

        return [.. fields];
    }

    private string PathOf(string name)
    {
        string path = Path.Combine(Folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        return path;
    }
}
