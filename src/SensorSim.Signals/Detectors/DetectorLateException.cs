// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Detectors;

/// <summary>A detector kept up with the samples, or not, but gave too many of its answers after their deadline. Thrown when all answers have been handed out.</summary>
public sealed class DetectorLateException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">What happened, as <c>The detector …</c> without a final stop.</param>
    /// <param name="inner">The cause, when there is one.</param>
    public DetectorLateException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}
