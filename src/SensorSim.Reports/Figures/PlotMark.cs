// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Figures;

/// <summary>One event in a panel.</summary>
/// <param name="TimeS">When [s], on the time axis of the panel's samples. Marks outside the panel's time span are not drawn.</param>
/// <param name="Value">Height in the panel's unit; null (or not finite) for an event that has a time only.</param>
/// <param name="Label">A short text above the mark (a beat class, say), or null. Left out where it would cover its neighbour.</param>
public readonly record struct PlotMark(double TimeS, double? Value = null, string? Label = null);
