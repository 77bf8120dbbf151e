// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Comparisons;

/// <summary>What a comparison shows of the second detector.</summary>
public enum DifferenceVerdict
{
    /// <summary>Better: the interval lies wholly on the better side of 0, and the swap test finds at most 5 %.</summary>
    Better,

    /// <summary>Worse: the interval lies wholly on the worse side of 0, and the swap test finds at most 5 %.</summary>
    Worse,

    /// <summary>Neither is shown. It does not mean that they are equal.</summary>
    NoDifferenceShown,

    /// <summary>A figure is undefined, or there is no interval.</summary>
    Unknown,
}

/// <summary>Words of verdicts.</summary>
public static class DifferenceVerdicts
{
    /// <summary>The word on pages and in files.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Text(this DifferenceVerdict verdict) => verdict switch
    {
        DifferenceVerdict.Better => "better",
        DifferenceVerdict.Worse => "worse",
        DifferenceVerdict.NoDifferenceShown => "no difference shown",
        _ => "cannot be told",
    };
}
