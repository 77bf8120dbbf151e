// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>How a transient of one time constant goes on from four samples of a grid to the next four.</summary>
internal readonly record struct TransientPace
{
    /// <summary>Works it out, once for all transients of a kind.</summary>
    /// <param name="tauSeconds">Time constant [s].</param>
    /// <param name="grid">Sampling instants.</param>
    public TransientPace(double tauSeconds, SampleGrid grid)
    {
        TauSeconds = tauSeconds;
        Step = 4 * grid.StepSeconds / tauSeconds;
        Ratio = PortableMath.Exp(-Step);
    }

    /// <summary>Time constant [s].</summary>
    public double TauSeconds { get; }

    /// <summary>Four samples, in time constants.</summary>
    public double Step { get; }

    /// <summary>What is left of its exponential after them.</summary>
    public double Ratio { get; }
}
