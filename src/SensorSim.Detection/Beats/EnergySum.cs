// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Beats;

/// <summary>The part of <see cref="QrsEnergy"/> that changes with every sample beside the magnitudes held.</summary>
public struct EnergySum
{
    /// <summary>Samples that have come, modulo 2^32.</summary>
    public int At;

    /// <summary>The integrated magnitude.</summary>
    public int Value;
}
