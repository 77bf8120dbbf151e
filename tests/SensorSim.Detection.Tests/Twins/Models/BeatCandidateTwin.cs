// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What is known of one hump, in doubles; likeness in 1/256, so that the judge's limits are the numbers of the page.</summary>
internal sealed record BeatCandidateTwin
{
    /// <summary>Slopes round the R peak in units of 2^<see cref="Scale"/>: the largest lies between 2^11 and 2^12.</summary>
    public required double[] Slopes { get; init; }

    public int Scale { get; init; }

    /// <summary>Place of the R peak [working samples].</summary>
    public double Position { get; init; }

    public double Deviation { get; init; }

    public double Slope { get; init; }

    public double Height { get; init; }

    public double Fit { get; init; }

    public double OtherFit { get; init; }

    public double Size { get; init; }

    public double OtherSize { get; init; }

    public bool IsWide { get; init; }

    /// <summary>Whether it was a beat only after it was missing.</summary>
    public bool IsLookedBack { get; init; }
}
