// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Budgets;

/// <summary>Whether a session fits a line.</summary>
public enum LineFit
{
    /// <summary>It fits, whatever the status words are.</summary>
    Fits,

    /// <summary>It fits as long as few status words change.</summary>
    Tight,

    /// <summary>It does not fit.</summary>
    TooMuch,
}
