// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Beats;

/// <summary>The part of <see cref="BandPass"/> that changes with every sample beside the samples held.</summary>
public struct BandSums
{
    /// <summary>Samples that have come, modulo 2^32.</summary>
    public int At;

    /// <summary>The first moving sum.</summary>
    public int First;

    /// <summary>The second.</summary>
    public int Second;
}
