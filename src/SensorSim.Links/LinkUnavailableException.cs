// SPDX-License-Identifier: MIT
namespace SensorSim.Links;

/// <summary>A link cannot be opened: no such port, no permission, in use, nobody listening. The message is one sentence that says what would be right.</summary>
public sealed class LinkUnavailableException : IOException
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">One sentence.</param>
    /// <param name="inner">The cause, when there is one.</param>
    public LinkUnavailableException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}
