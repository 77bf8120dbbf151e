// SPDX-License-Identifier: MIT
namespace SensorSim.Links;

/// <summary>The other end of a link is gone. The message is one sentence that names the link and says what would be right.</summary>
public sealed class LinkLostException : IOException
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">One sentence.</param>
    /// <param name="inner">The cause, when there is one.</param>
    public LinkLostException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}
