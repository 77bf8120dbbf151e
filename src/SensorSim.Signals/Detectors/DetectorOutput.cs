// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Signals.Detectors;

/// <summary>Where a detector puts its answers; emptied by the runner after each block.</summary>
public sealed class DetectorOutput
{
    /// <summary>Marks that fit unless stated otherwise; who gives more in a block is babbling.</summary>
    public const int DefaultMarkCapacity = 4096;

    /// <summary>Settings requests that fit unless stated otherwise.</summary>
    public const int DefaultRequestCapacity = 64;

    /// <summary>Creates rings of stated capacity.</summary>
    /// <param name="markCapacity">Marks that fit between two emptyings, at least 1.</param>
    /// <param name="requestCapacity">Settings requests that fit, at least 1.</param>
    public DetectorOutput(int markCapacity = DefaultMarkCapacity, int requestCapacity = DefaultRequestCapacity)
    {
        Marks = new EventRing<Mark>(markCapacity);
        Requests = new EventRing<SettingsRequest>(requestCapacity);
    }

    /// <summary>Marks given since the last emptying, in order of emission.</summary>
    public EventRing<Mark> Marks { get; }

    /// <summary>Settings requests given since the last emptying, in order of emission.</summary>
    public EventRing<SettingsRequest> Requests { get; }
}
