// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.EcgNoise;

/// <summary>What disturbs the ECG, in the order in which it is told.</summary>
public enum EcgNoiseKind
{
    /// <summary>White noise.</summary>
    WhiteNoise,

    /// <summary>Random wander of the baseline.</summary>
    BaselineWander,

    /// <summary>Breathing in the baseline.</summary>
    Breathing,

    /// <summary>Mains with its harmonics.</summary>
    Mains,

    /// <summary>Steady muscle noise.</summary>
    Muscle,

    /// <summary>Bursts of muscle noise, averaged over time.</summary>
    MuscleBursts,

    /// <summary>Slow electrode motion.</summary>
    SlowMotion,

    /// <summary>Sharp electrode motion.</summary>
    SharpMotion,

    /// <summary>Recorded noise.</summary>
    Recording,
}
