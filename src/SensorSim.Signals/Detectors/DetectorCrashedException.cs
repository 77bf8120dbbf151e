// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Detectors;

/// <summary>A detector has died or broken the contract of its adapter. The message is one sentence without time or place: the runner adds them.</summary>
public sealed class DetectorCrashedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">What happened, as <c>The detector …</c> without a final stop.</param>
    /// <param name="inner">The cause, when there is one.</param>
    public DetectorCrashedException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}
