// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>One row of <c>detections.csv</c>: a detector's answer with its positions in nominal device time.</summary>
/// <param name="Channel">Channel it speaks of.</param>
/// <param name="Kind">What is reported.</param>
/// <param name="Sample">Sample index.</param>
/// <param name="TimeNs">Device time with the sub-sample part [ns]; no declared delay taken off.</param>
/// <param name="Value">Value in the kind's unit; NaN when there is none.</param>
/// <param name="Quality">Trust, 0 to 255.</param>
/// <param name="PairedTimeNs">Device time of the paired mark (the R peak of an arrival) [ns]; null when nothing is paired.</param>
/// <param name="WindowBeginNs">Begin of the averaging window [ns]; null when there is none.</param>
/// <param name="WindowEndNs">End of the averaging window [ns]; null when there is none.</param>
/// <param name="EmittedTimeNs">End of the data the detector had seen [ns].</param>
public readonly record struct DetectionRow(
    ChannelName Channel,
    MarkKind Kind,
    long Sample,
    long TimeNs,
    double Value,
    int Quality,
    long? PairedTimeNs,
    long? WindowBeginNs,
    long? WindowEndNs,
    long EmittedTimeNs)
{
    internal const string Header =
        "channel,kind,sample,time_ns,value,quality,paired_time_ns,window_begin_ns,window_end_ns,emitted_time_ns";
}
