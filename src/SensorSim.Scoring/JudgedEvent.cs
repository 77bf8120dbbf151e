// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring;

/// <summary>An event of truth, a detection, or a pair of them, once it is judged. Times in body time.</summary>
/// <param name="Channel">Channel.</param>
/// <param name="Kind">Kind of event.</param>
/// <param name="TruthNs">Time of the truth [ns]; null for a detection that pairs with nothing.</param>
/// <param name="DetectionNs">Time of the detection [ns]; null for a truth that pairs with nothing.</param>
/// <param name="IsScored">Whether it counts: not in the lead-in, the last second or an unusable stretch, and not optional.</param>
/// <param name="Label">Class of the beat of truth; none for a detection alone.</param>
public readonly record struct JudgedEvent(
    ChannelName Channel, MarkKind Kind, long? TruthNs, long? DetectionNs, bool IsScored, BeatClass Label = BeatClass.None);
