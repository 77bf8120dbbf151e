// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Boards.Capturing;

/// <summary>What came over the line during a capture.</summary>
/// <param name="Frames">Sound frames of all types.</param>
/// <param name="SamplesFrames">Frames of samples that were taken.</param>
/// <param name="Damaged">Frames that came damaged.</param>
/// <param name="Missing">Frames that were passed over.</param>
/// <param name="Repeated">Frames that came again, or too late.</param>
/// <param name="Unusable">Sound frames of samples that contradict the format or those before; nothing of them was taken.</param>
/// <param name="Bytes">Bytes that came.</param>
public readonly record struct CaptureCounts(
    long Frames, long SamplesFrames, long Damaged, long Missing, long Repeated, long Unusable, long Bytes);
