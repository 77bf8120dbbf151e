// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Fitting;

/// <summary>What turns a straight line in the level into a share from 0 to 1.</summary>
public enum CurveLink
{
    /// <summary>Logistic: share = 1 / (1 + e^−line).</summary>
    Logit,

    /// <summary>Cumulative normal distribution.</summary>
    Probit,

    /// <summary>Complementary log-log: share = 1 − exp(−e^line).</summary>
    ComplementaryLogLog,
}
