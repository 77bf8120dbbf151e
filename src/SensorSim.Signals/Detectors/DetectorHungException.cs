// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Detectors;

/// <summary>A detector took longer for a block than it may, and was ended. The message is one sentence without time or place.</summary>
public sealed class DetectorHungException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">What happened, as <c>The detector …</c> without a final stop.</param>
    /// <param name="inner">The cause, when there is one.</param>
    public DetectorHungException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}
