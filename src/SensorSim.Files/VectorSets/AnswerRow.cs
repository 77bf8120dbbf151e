// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>An answer that is held against acceptance: of a device, or of another implementation.</summary>
/// <param name="CaseName">Case it belongs to; empty when the file has no such column.</param>
/// <param name="Channel">Channel it speaks of.</param>
/// <param name="Kind">What is reported.</param>
/// <param name="TimeNs">Nominal device time [ns].</param>
/// <param name="Value">Value in the kind's unit; NaN when there is none.</param>
/// <param name="EmittedTimeNs">When it was emitted [ns]; null when the file does not say.</param>
public readonly record struct AnswerRow(string CaseName, ChannelName Channel, MarkKind Kind, long TimeNs, double Value, long? EmittedTimeNs);
