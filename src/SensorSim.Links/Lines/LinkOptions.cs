// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Lines;

/// <summary>How a link is opened, beside its address.</summary>
public sealed record LinkOptions
{
    /// <summary>Lowest rate of a serial port [baud].</summary>
    public const int LowestBaud = 300;

    /// <summary>Highest rate of a serial port [baud].</summary>
    public const int HighestBaud = 3_000_000;

    /// <summary>Rate that is used when none is given [baud]: common practice of boards.</summary>
    public const int UsualBaud = 115_200;

    /// <summary>Rate of a serial port [baud], <see cref="LowestBaud"/> to <see cref="HighestBaud"/>; other links pass over it.</summary>
    public int BaudRate { get; init; } = UsualBaud;

    /// <summary>Whether a serial port holds back bytes while the board says on CTS that it takes none (and the other way round on RTS).</summary>
    public bool UsesRtsCts { get; init; }

    /// <summary>How long a TCP connection may take to come about.</summary>
    public TimeSpan ConnectTimeout { get; init; } = TimeSpan.FromSeconds(3);
}
