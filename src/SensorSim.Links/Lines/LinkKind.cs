// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Lines;

/// <summary>What an address leads to.</summary>
public enum LinkKind
{
    /// <summary>A serial port.</summary>
    Serial,

    /// <summary>A TCP connection to a program that listens.</summary>
    Tcp,
}
