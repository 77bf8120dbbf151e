// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.Options;

/// <summary>The command line asks for something that cannot be; the message says what would be right.</summary>
public sealed class UsageException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">One sentence.</param>
    public UsageException(string message)
        : base(message)
    {
    }
}
