// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Detectors;

/// <summary>A detector's wish to change a setting of the sensor; also one row of the settings schedule.</summary>
/// <param name="Channel">Channel number in the stream's format.</param>
/// <param name="Setting">Which setting.</param>
/// <param name="ValueMilli">Wanted value in thousandths of the setting's unit.</param>
/// <param name="EffectiveTick">First tick at which the change may show; 0: as soon as the sensor can.</param>
public readonly record struct SettingsRequest(int Channel, SensorSetting Setting, int ValueMilli, long EffectiveTick);

/// <summary>Settings of a sensor that can change while it runs.</summary>
public enum SensorSetting
{
    /// <summary>LED current [mA].</summary>
    LedCurrentMa,

    /// <summary>LED pulse width [µs].</summary>
    PulseWidthUs,

    /// <summary>Amplifier gain [ratio].</summary>
    Gain,

    /// <summary>Integer decimation of the base rate [ratio]; 0 switches the channel off.</summary>
    Decimation,
}
