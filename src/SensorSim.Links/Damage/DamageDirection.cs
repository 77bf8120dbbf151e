// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Damage;

/// <summary>Which way frames are damaged.</summary>
[Flags]
public enum DamageDirection
{
    /// <summary>Neither way.</summary>
    None = 0,

    /// <summary>What is written to the board.</summary>
    ToBoard = 1,

    /// <summary>What the board sends.</summary>
    FromBoard = 2,

    /// <summary>Both ways.</summary>
    Both = ToBoard | FromBoard,
}
