// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Budgets;

/// <summary>What one direction of a session puts on the line, with everything around it: header, check, COBS, 00.</summary>
/// <param name="UsualBytesPerSecond">When the status words of a channel are alike within a frame.</param>
/// <param name="WorstBytesPerSecond">When every sample carries a status word of its own.</param>
public readonly record struct LineNeed(long UsualBytesPerSecond, long WorstBytesPerSecond);
