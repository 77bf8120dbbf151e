// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Reports.Charts;
using SensorSim.Reports.Figures;
using SensorSim.Reports.Html;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Reports.StudyReports;

/// <summary>The report of a study: one page that needs nothing else, its figures as files, its tables as files.</summary>
public static class StudyReport
{
    private static readonly UTF8Encoding s_utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>
    /// Writes <c>report.html</c>, every figure as <c>report/figures/NAME.png</c> and <c>.svg</c>, every table as <c>report/tables/NAME.csv</c>.
    /// </summary>
    /// <remarks>The same input gives the same bytes on one machine; the order of threads plays no part.</remarks>
    /// <param name="pathOf">Where a file of a name goes; makes the folder that the name asks for.</param>
    /// <param name="results">Plan and rows.</param>
    /// <param name="points">Failure points; empty when none were looked for.</param>
    /// <param name="options">What else to show.</param>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static void Write(Func<string, string> pathOf, StudyResults results, IReadOnlyList<FailurePoint> points, StudyReportOptions options)
    {
        ArgumentNullException.ThrowIfNull(pathOf);
        ArgumentNullException.ThrowIfNull(results);
        ArgumentNullException.ThrowIfNull(points);
        ArgumentNullException.ThrowIfNull(options);
        var pooled = new PooledFigures(results);
        var layout = new PointLayout(results.Plan);
        (AgreementData Data, AgreementLimits? Limits)[] agreement = [.. options.Agreement.Select(a => (a, a.Limits ?? AgreementLimits.OfIndependent(a.Pairs)))];
        StudyFigure[] figures =
        [
            .. LevelFigures.Of(pooled, layout, points),
            .. HeatFigures.Of(pooled, layout),
            .. ScatterFigures.Of(pooled, layout),
            .. EffectFigures.Of(pooled, layout),
            .. WorstFigures.Of(results.Plan, options.WorstCases),
            .. agreement.Chunk(4).Select((some, i) => AgreementFigure(results.Plan.Title, some, i)),
        ];

        // The page holds the figures as vectors; the bitmaps lie beside it only.
        SideBySide.Do(
            CancellationToken.None,
            [
                () =>
                {
                    byte[][] vectors = [.. SideBySide.Each(figures, f => WriteFigure(pathOf, f, FigureFormat.Svg, "svg"))];
                    WritePage(pathOf, new StudyPage(pooled, layout, points, options, agreement, figures, vectors));
                },
                .. figures.Select(f => (Action)(() => WriteFigure(pathOf, f, FigureFormat.Png, "png"))),
            ]);
    }

    private static void WritePage(Func<string, string> pathOf, StudyPage page)
    {
        File.WriteAllText(pathOf("report.html"), page.Text(), s_utf8);
        foreach (Table table in page.Tables)
        {
            File.WriteAllText(pathOf($"report/tables/{table.Name}.csv"), table.Csv(), s_utf8);
        }
    }

    private static byte[] WriteFigure(Func<string, string> pathOf, StudyFigure figure, FigureFormat format, string ending)
    {
        byte[] bytes = figure.Bytes(format);
        File.WriteAllBytes(pathOf($"report/figures/{figure.Name}.{ending}"), bytes);
        return bytes;
    }

    /// <summary>
    /// Takes the start-up cost of the first report at a time of the caller's choice: draws a small figure into nothing. Run on a second thread while
    /// the runs are made, it takes that time out of the way.
    /// </summary>
    public static void WarmUp()
    {
        LevelPanel panel = new()
        {
            Title = "-",
            XTitle = "-",
            Limits = [0.5],
            Series = [new LevelSeries { Detector = 0, Levels = [(0, 0, null), (1, 1, null)], FailureLevel = 0.5 }],
        };
        var chart = new LevelChart("-", ["-", "-"], [panel]) { Title = "-" };
        chart.Bytes(FigureFormat.Png);
        chart.Bytes(FigureFormat.Svg);
    }

    private static StudyFigure AgreementFigure(string title, (AgreementData Data, AgreementLimits? Limits)[] data, int index)
    {
        var chart = new AgreementChart($"{title} — agreement with truth", data) { Title = title };
        return new StudyFigure(
            FormattableString.Invariant($"agreement_{index + 1}"),
            chart.Bytes,
            [
                "Each sign: a reading less its true value, over the mean of the two. Line: bias; dashed: limits of agreement; bands: their 95 % intervals.",
                .. data.Select(d => d.Limits?.Definition ?? "").Where(d => d.Length > 0).Distinct(StringComparer.Ordinal),
            ]);
    }
}
