// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>Constants of the library that may be set before the start: for studies of what they do, and for a sensor of its own kind.</summary>
/// <remarks>The reasons for the usual values stand in the pages of docs about the stages; every measured figure holds for them.</remarks>
public struct Tuning
{
    /// <summary>No two beats lie closer than this [ms], 100 to 400.</summary>
    public short BeatRefractoryMs;

    /// <summary>Up to this long after a beat a candidate may be its T wave [ms], 200 to 600.</summary>
    public short BeatTWaveMs;

    /// <summary>Threshold of beats, of the usual one [percent], 25 to 400.</summary>
    public short BeatThresholdPercent;

    /// <summary>No two pulses lie closer than this [ms], 150 to 500.</summary>
    public short PulseRefractoryMs;

    /// <summary>Thresholds of pulses, of the usual ones [percent], 25 to 400.</summary>
    public short PulseThresholdPercent;

    /// <summary>A gate that shut stays shut for this long at least [ms], 500 to 15,000.</summary>
    public short GateShutMs;

    /// <summary>Features of the last beats that may stand out when the gate of the ECG opens, 0 to 12.</summary>
    public byte EcgFaultsToOpen;

    /// <summary>Features of the last pulses that may stand out when the gate of the light opens, 0 to 12.</summary>
    public byte LightFaultsToOpen;

    /// <summary>After a signal that was not convincing for this many beats or pulses, as many must be before a gate opens, 0 to 8.</summary>
    public byte Doubt;

    /// <summary>The usual values.</summary>
    public static Tuning Usual => new()
    {
        BeatRefractoryMs = 200,
        BeatTWaveMs = 360,
        BeatThresholdPercent = 100,
        PulseRefractoryMs = 270,
        PulseThresholdPercent = 100,
        GateShutMs = 3000,
        EcgFaultsToOpen = 3,
        LightFaultsToOpen = 3,
        Doubt = 5,
    };
}
