// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>What a receiver has counted.</summary>
/// <remarks>A frame that is damaged on its way is counted twice: as damaged when it comes, and as missing when the next good one comes.</remarks>
/// <param name="Good">Frames accepted.</param>
/// <param name="Damaged">Stretches between two 00 that are no sound frame of this version.</param>
/// <param name="Missing">Numbers that were passed over.</param>
/// <param name="Repeated">Sound frames that are copies, or come too late.</param>
/// <param name="OtherVersion">Those of the damaged ones that are sound but of another version of the protocol.</param>
public readonly record struct FrameCounts(long Good, long Damaged, long Missing, long Repeated, long OtherVersion);
