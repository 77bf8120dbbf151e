// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics.Agreement;

/// <summary>How far the limits of agreement lie from the mean difference.</summary>
public enum LimitRule
{
    /// <summary>1.96 standard deviations: 95 % of normal differences (Bland and Altman 1999).</summary>
    Normal95,

    /// <summary>2 standard deviations, as in the paper of 1986.</summary>
    TwoSd,
}

/// <summary>Which published standard error a limit of agreement gets.</summary>
public enum LimitErrorForm
{
    /// <summary>√(3 / n) · SD: the approximation of Bland and Altman, Lancet i:307-310, 1986.</summary>
    Form1986,

    /// <summary>√(1 / n + k² / (2 (n − 1))) · SD, k the multiplier of the limits: Bland and Altman, Stat Methods Med Res 8:135-160, 1999.</summary>
    Form1999,
}
