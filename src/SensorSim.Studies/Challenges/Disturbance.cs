// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>A knob turned up to a value.</summary>
/// <param name="Knob">Its place in the list of knobs of the search.</param>
/// <param name="Value">The value.</param>
public readonly record struct Disturbance(int Knob, double Value);
