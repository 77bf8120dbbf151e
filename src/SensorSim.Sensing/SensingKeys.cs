// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing;

/// <summary>Every knob of the sensor.</summary>
public static class SensingKeys
{
    /// <summary>Every knob of the sensor, by section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [
            .. EcgAmplifierKeys.All, .. EcgNoiseKeys.All, .. OpticsKeys.All, .. RecordedLightKeys.All, .. AmbientKeys.All, .. AccelerometerKeys.All, .. MainsKeys.All,
            .. DeviceKeys.First.All, DeviceKeys.SecondCarries, .. DeviceKeys.Second.All,
        ];
}
