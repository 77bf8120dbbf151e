// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Signals.Detectors;

/// <summary>Where a detector puts its answers; emptied by the runner after each block.</summary>
public sealed class DetectorOutput
{
    /// <summary>Creates rings of stated capacity.</summary>
    /// <param name="markCapacity">Marks that fit between two emptyings, at least 1.</param>
    /// <param name="requestCapacity">Settings requests that fit, at least 1.</param>
    public DetectorOutput(int markCapacity = 4096, int requestCapacity = 64)
    {
        Marks = new EventRing<Mark>(markCapacity);
        Requests = new EventRing<SettingsRequest>(requestCapacity);
    }

    /// <summary>Marks given since the last emptying, in order of emission.</summary>
    public EventRing<Mark> Marks { get; }

    /// <summary>Settings requests given since the last emptying, in order of emission.</summary>
    public EventRing<SettingsRequest> Requests { get; }
}
