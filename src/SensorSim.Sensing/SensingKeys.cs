// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Delivery;
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
            .. ElectrodeKeys.All,
            .. EcgAmplifierKeys.All, .. ConversionKeys.Ecg.All, .. EcgNoiseKeys.All,
            .. OpticsKeys.All, .. RecordedLightKeys.All, .. ConversionKeys.Optics.All,
            .. AmbientKeys.All,
            .. AccelerometerKeys.All, .. ConversionKeys.Accelerometer.All,
            .. MainsKeys.All,
            .. DeviceKeys.First.All, .. DataPathKeys.First.All,
            DeviceKeys.SecondCarries, .. DeviceKeys.Second.All, .. DataPathKeys.Second.All,
        ];
}
