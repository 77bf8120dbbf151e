// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Sweeps;

/// <summary>How far a sweep is.</summary>
/// <param name="Made">Runs made since its start.</param>
/// <param name="ToMake">Runs that were to be made, as far as known: an adaptive study may ask for more.</param>
/// <param name="SignalS">Signal in the runs made [s].</param>
public readonly record struct SweepProgress(long Made, long ToMake, double SignalS);
