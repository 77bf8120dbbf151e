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

    /// <summary>It threw an exception, its process died, it broke the contract of its adapter, or it gave marks of channels that the stream does not have.</summary>
    Crashed,

    /// <summary>It took longer for a block than it may and was ended.</summary>
    Hung,

    /// <summary>It gave a mark of samples that it had not been handed yet, or claims to have given a mark at another time than it did.</summary>
    Lying,

    /// <summary>It gave more of its answers after their deadline than it may; told only of boards that are fed in real time.</summary>
    Late,
}
