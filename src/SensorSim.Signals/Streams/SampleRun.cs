// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>Consecutive samples inside a block; between two runs of a channel lies a gap.</summary>
/// <param name="FirstIndex">Sample index of the first sample of the run, counted from the start of the stream.</param>
/// <param name="Offset">Where the run starts in the block's buffers.</param>
/// <param name="Count">Samples in the run, at least 1.</param>
public readonly record struct SampleRun(long FirstIndex, int Offset, int Count);
