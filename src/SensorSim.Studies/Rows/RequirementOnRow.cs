// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Rows;

/// <summary>A requirement on one channel, as the rows of a study are judged by it.</summary>
/// <param name="Definition">The requirement.</param>
/// <param name="Limit">Its limit.</param>
/// <param name="Channel">The channel.</param>
public sealed record RequirementOnRow(RequirementDefinition Definition, double Limit, ChannelName Channel)
{
    /// <summary>Whether larger figures are better.</summary>
    public bool IsLeast => IsLeastOf(Definition.Figure);

    /// <summary>What it is about, for example <c>ecg r_peak</c>.</summary>
    public string Subject => $"{Channel.Text()} {Signals.Marks.MarkKinds.Text(Definition.Kind)}";

    /// <summary>Whether a figure meets it; an undefined one does not.</summary>
    /// <param name="figure">The figure.</param>
    public bool IsMetBy(double? figure) => figure is double f && (IsLeast ? f >= Limit : Math.Abs(f) <= Limit);

    /// <summary>The figure of one run; null when it is undefined.</summary>
    /// <param name="row">The row.</param>
    public double? FigureOf(RunRow row)
    {
        var pool = new RunPool(Definition, Channel);
        pool.Add(row);
        return pool.Figure;
    }

    /// <summary>Whether one run meets it; a run in which the detector did not answer does not.</summary>
    /// <param name="row">The row.</param>
    public bool IsMetBy(RunRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.Verdict == Running.Verdict.Answered && IsMetBy(FigureOf(row));
    }

    /// <summary>Whether larger values of a figure are better.</summary>
    /// <param name="figure">The figure.</param>
    public static bool IsLeastOf(RequiredFigure figure) => figure.IsLeast();
}
