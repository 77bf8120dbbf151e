// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Comparisons;

/// <summary>The numbers of a run whose sums over runs give a figure, for every figure: as <see cref="RunPool"/> pools it.</summary>
/// <param name="figure">The figure.</param>
internal sealed class ComparedColumns(ComparedFigure figure)
{
    /// <summary>Columns.</summary>
    public const int Count = FigureColumns.Count;

    private readonly FigureColumns _usual = new(figure.OnRow, null);

    /// <summary>Puts a run's numbers into columns.</summary>
    /// <param name="row">The row.</param>
    /// <param name="columns">Receives them.</param>
    /// <returns>Events or readings behind them.</returns>
    public long Read(RunRow row, Span<double> columns)
    {
        ReadingRow? readings = row.FindReading(figure.Channel, figure.Definition.Kind);
        switch (figure.Definition.Figure)
        {
            case RequiredFigure.ReadingAvailableShare:
                columns.Clear();
                columns[0] = readings?.AvailableNs ?? 0;
                columns[1] = readings?.UsableNs ?? row.ScoredNs;
                return readings?.Count ?? 0;
            case RequiredFigure.ReadingWrongShare:
                columns.Clear();
                columns[0] = readings?.Wrong ?? 0;
                columns[1] = readings?.JudgedCount ?? 0;
                return readings?.JudgedCount ?? 0;
            case RequiredFigure.ReadingFirst:
                columns.Clear();
                columns[0] = (readings?.FirstReadingNs ?? 0) * 1e-9;
                columns[1] = 1;
                columns[2] = readings?.FirstReadingNs is null ? 1 : 0;
                return readings?.Count ?? 0;
            default:
                return _usual.Read(row, columns);
        }
    }

    /// <summary>The figure of summed columns; not a number when it is undefined.</summary>
    /// <param name="sums">Sums of the columns.</param>
    public double Figure(ReadOnlySpan<double> sums) => figure.Definition.Figure switch
    {
        RequiredFigure.ReadingAvailableShare or RequiredFigure.ReadingWrongShare => sums[1] > 0 ? sums[0] / sums[1] : double.NaN,
        RequiredFigure.ReadingFirst => sums[1] > 0 && sums[2] == 0 ? sums[0] / sums[1] : double.NaN,
        _ => _usual.Figure(sums),
    };

    /// <summary>Second less first, of magnitudes for figures with a sign; not a number when either is undefined.</summary>
    /// <param name="first">Sums of the first.</param>
    /// <param name="second">Sums of the second.</param>
    public double Difference(ReadOnlySpan<double> first, ReadOnlySpan<double> second)
    {
        (double a, double b) = (Figure(first), Figure(second));
        return figure.HasSign ? Math.Abs(b) - Math.Abs(a) : b - a;
    }
}
