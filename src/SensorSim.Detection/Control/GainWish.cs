// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Control;

/// <summary>What one channel would like of the gain that all optical channels share.</summary>
internal enum GainWish : byte
{
    /// <summary>It does well as it is.</summary>
    None = 0,

    /// <summary>Twice.</summary>
    Up = 1,

    /// <summary>Half.</summary>
    Down = 2,
}
