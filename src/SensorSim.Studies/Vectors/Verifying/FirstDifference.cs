// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>Where a file first differs from what is made anew.</summary>
/// <param name="Byte">Place, counted from 0.</param>
/// <param name="Where">The place in the file's own terms.</param>
/// <param name="InFile">What stands there.</param>
/// <param name="Made">What is made.</param>
public sealed record FirstDifference(long Byte, string Where, string InFile, string Made)
{
    /// <summary>Line, counted from 1, of a text.</summary>
    public long? Line { get; init; }

    /// <summary>Channel, of samples.</summary>
    public string? Channel { get; init; }

    /// <summary>Sample number, of samples.</summary>
    public long? Sample { get; init; }

    /// <summary>Nominal device time [s], of samples.</summary>
    public double? TimeS { get; init; }

    /// <summary>The clause that says it.</summary>
    public string Sentence => $"{Where}: {InFile} in the file, {Made} when made anew";
}
