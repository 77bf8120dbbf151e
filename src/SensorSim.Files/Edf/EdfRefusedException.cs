// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Edf;

/// <summary>A recording cannot be put into EDF or BDF. The message is one sentence: why, and which form takes it.</summary>
public sealed class EdfRefusedException : NotSupportedException
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">Why, and which form takes the recording.</param>
    public EdfRefusedException(string message)
        : base(message)
    {
    }
}
