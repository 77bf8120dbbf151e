// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Running;

/// <summary>How the detector behaved, apart from how well it did.</summary>
public enum Verdict
{
    /// <summary>It answered.</summary>
    Answered,

    /// <summary>It gave no mark at all.</summary>
    Silent,

    /// <summary>It gave more marks in one block than there is room for.</summary>
    Babbling,

    /// <summary>It threw an exception or gave marks of channels that the stream does not have.</summary>
    Crashed,
}
