// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>What is asked of one row of scores.</summary>
/// <param name="Channel">Channel of the row.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Limits">Limits that the test sets, in its order; empty: the usual ones.</param>
/// <param name="IsEach">Whether every run must keep them alone, instead of all runs pooled.</param>
/// <param name="Given">What it is run on; null when the runs are handed over.</param>
internal sealed record RowPlan(ChannelName Channel, MarkKind Kind, IReadOnlyList<FigureLimit> Limits, bool IsEach, GivenScenario? Given)
{
    /// <summary>Channel and kind.</summary>
    public string Row => $"{Channel.Text()} {Kind.Text()}";

    /// <summary>The plan with one more limit.</summary>
    public RowPlan And(Figure figure, double value, bool isCertain) => this with { Limits = [.. Limits, new FigureLimit(figure, value, isCertain)] };
}
