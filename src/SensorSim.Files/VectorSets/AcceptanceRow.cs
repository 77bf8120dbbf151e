// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>One row of <c>acceptance.csv</c>: what a requirement asks of the answers between two instants, nominal device time.</summary>
/// <param name="Requirement">Name of the requirement.</param>
/// <param name="Channel">Channel whose answers count; null: any.</param>
/// <param name="Kind">Kind of the answers.</param>
/// <param name="Rule">What is asked.</param>
/// <param name="BeginNs">First instant [ns].</param>
/// <param name="EndNs">Last instant, included [ns].</param>
/// <param name="Low">Least value [unit of the kind]; NaN when values do not matter.</param>
/// <param name="High">Greatest value [unit of the kind]; NaN when values do not matter.</param>
/// <param name="EmittedByNs">Latest emission [ns]; null when it does not matter.</param>
/// <param name="BeatId">Beat of truth that the row is about; −1: none.</param>
public readonly record struct AcceptanceRow(
    string Requirement,
    ChannelName? Channel,
    MarkKind Kind,
    AcceptanceRule Rule,
    long BeginNs,
    long EndNs,
    double Low = double.NaN,
    double High = double.NaN,
    long? EmittedByNs = null,
    long BeatId = -1)
{
    internal const string Header = "requirement,channel,kind,rule,begin_ns,end_ns,low,high,emitted_by_ns,beat_id";

    /// <summary>Whether a value is one that the row allows.</summary>
    /// <param name="value">The value; NaN when an answer has none.</param>
    public bool Allows(double value) => double.IsNaN(Low) || (value >= Low && value <= High);
}
