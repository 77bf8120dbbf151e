// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Control;

/// <summary>A wish to change a setting of the sensor. It may be carried out late, clamped, or not at all.</summary>
/// <param name="Role">Of which channel.</param>
/// <param name="Setting">Which setting.</param>
/// <param name="ValueMilli">Wanted value, in thousandths of the setting's unit.</param>
public readonly record struct ControlRequest(ControlRole Role, ControlSetting Setting, int ValueMilli);
