// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Oxygen;

/// <summary>Forms of haemoglobin.</summary>
public enum Species
{
    /// <summary>With oxygen, HbO2.</summary>
    Oxygenated,

    /// <summary>Without oxygen, Hb.</summary>
    Deoxygenated,

    /// <summary>With carbon monoxide, HbCO.</summary>
    Carboxy,

    /// <summary>Oxidised, unable to carry oxygen, MetHb.</summary>
    Met,
}
