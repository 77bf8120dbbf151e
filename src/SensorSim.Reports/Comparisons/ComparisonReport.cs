// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Reports.Figures;
using SensorSim.Reports.Html;
using SensorSim.Reports.StudyReports;
using SensorSim.Studies.Comparisons;

namespace SensorSim.Reports.Comparisons;

/// <summary>The page about a comparison: it needs nothing but itself; its figures and tables lie beside it as files too.</summary>
public static class ComparisonReport
{
    /// <summary>The page.</summary>
    public const string Page = "compare.html";

    /// <summary>The folder of its figures and tables.</summary>
    public const string Folder = "compare";

    private static readonly UTF8Encoding s_utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes <c>compare.html</c>, every figure as <c>compare/figures/NAME.png</c> and <c>.svg</c>, every table as <c>compare/tables/NAME.csv</c>.</summary>
    /// <remarks>The same comparison gives the same bytes on one machine.</remarks>
    /// <param name="pathOf">Where a file of a name goes; makes the folder that the name asks for.</param>
    /// <param name="comparison">The comparison.</param>
    /// <param name="gate">What was judged; null when nothing was.</param>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static void Write(Func<string, string> pathOf, Comparison comparison, Gate? gate)
    {
        ArgumentNullException.ThrowIfNull(pathOf);
        ArgumentNullException.ThrowIfNull(comparison);
        IReadOnlyList<StudyFigure> figures = ComparisonFigures.Of(comparison);
        var vectors = new byte[figures.Count][];
        for (int i = 0; i < vectors.Length; i++)
        {
            vectors[i] = figures[i].Bytes(FigureFormat.Svg);
            File.WriteAllBytes(pathOf($"{Folder}/figures/{figures[i].Name}.svg"), vectors[i]);
            File.WriteAllBytes(pathOf($"{Folder}/figures/{figures[i].Name}.png"), figures[i].Bytes(FigureFormat.Png));
        }

        var page = new ComparisonPage(comparison, gate, figures, vectors);
        File.WriteAllText(pathOf(Page), page.Text(), s_utf8);
        foreach (Table table in page.Tables)
        {
            File.WriteAllText(pathOf($"{Folder}/tables/{table.Name}.csv"), table.Csv(), s_utf8);
        }
    }
}
