// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint;

/// <summary>Every intermediate value of the detection library that can be watched, in the order of the flow.</summary>
public enum ProbePoint
{
    /// <summary>ECG code as it came, and what fills short gaps.</summary>
    EcgInput,

    /// <summary>ECG without pacing spikes, as the beat detector works on it: a code, or the sum of two to four.</summary>
    EcgWithoutSpikes,

    /// <summary>First moving sum of the band-pass, after its shift.</summary>
    EcgFirstSum,

    /// <summary>Second moving sum of the band-pass.</summary>
    EcgSecondSum,

    /// <summary>Band-passed ECG.</summary>
    EcgBandPass,

    /// <summary>Energy of the QRS band.</summary>
    EcgEnergy,

    /// <summary>Threshold of beats.</summary>
    BeatThreshold,

    /// <summary>Threshold when a beat is overdue.</summary>
    BeatLookBackThreshold,

    /// <summary>Light without that of the room.</summary>
    LightWithoutDark,

    /// <summary>Movement beside the light: the reference of the canceller.</summary>
    MovementReference,

    /// <summary>What the canceller takes for the artefact.</summary>
    CancellerEstimate,

    /// <summary>Light with the artefact taken off.</summary>
    CancellerOutput,

    /// <summary>Power of the references, as the canceller divides by it.</summary>
    CancellerPower,

    /// <summary>Largest weight of the canceller.</summary>
    CancellerWeight,

    /// <summary>Optical code as the pulse detector works on it: minus light, sums of samples.</summary>
    PulseInput,

    /// <summary>Slope of the best line.</summary>
    PulseSlope,

    /// <summary>Curvature for the foot by second derivative.</summary>
    PulseCurvature,

    /// <summary>Threshold of upstrokes.</summary>
    PulseThreshold,

    /// <summary>Red light, band-passed for the ratio of ratios.</summary>
    OxygenRed,

    /// <summary>Infrared light, band-passed for the ratio of ratios.</summary>
    OxygenInfrared,

    /// <summary>Level of movement.</summary>
    MovementLevel,

    /// <summary>Input of the spectrum that finds the pulse under movement.</summary>
    SpectrumInput,
}
