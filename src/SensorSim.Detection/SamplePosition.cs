// SPDX-License-Identifier: MIT
namespace SensorSim.Detection;

/// <summary>A place between two samples of one channel.</summary>
/// <param name="Sample">Index of the sample at or before the place.</param>
/// <param name="Fraction256">How far after it [1/256 of a sampling interval], 0 to 255.</param>
public readonly record struct SamplePosition(long Sample, byte Fraction256)
{
    /// <summary>The place counted from sample 0 [1/256 of a sampling interval].</summary>
    public long In256 => (Sample * 256) + Fraction256;

    /// <summary>The place that lies a number of 1/256 sampling intervals after sample 0.</summary>
    /// <param name="position256">The count; may be negative.</param>
    public static SamplePosition From256(long position256) => new(position256 >> 8, (byte)(position256 & 255));
}
