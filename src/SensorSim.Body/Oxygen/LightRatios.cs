// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Oxygen;

/// <summary>Pulse height of a light's absorbance over that of infrared.</summary>
/// <param name="Red">Red over infrared: the ratio of ratios.</param>
/// <param name="Green">Green over infrared.</param>
public readonly record struct LightRatios(double Red, double Green);
