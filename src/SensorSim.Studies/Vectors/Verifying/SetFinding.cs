// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>What is wrong with a file of a set.</summary>
public enum FindingKind
{
    /// <summary>It is not what the manifest says.</summary>
    Damaged,

    /// <summary>It is not there.</summary>
    Missing,

    /// <summary>The manifest does not list it.</summary>
    Extra,

    /// <summary>It is as the manifest says, but this program makes something else.</summary>
    Different,

    /// <summary>It was made by another version, so this one cannot make it again.</summary>
    OtherVersion,
}

/// <summary>One thing that is wrong with a set.</summary>
/// <param name="Path">The file, from the set's folder on.</param>
/// <param name="Kind">What is wrong.</param>
/// <param name="Sentence">What and where, without the file.</param>
public sealed record SetFinding(string Path, FindingKind Kind, string Sentence)
{
    /// <summary>Where the file first differs from what is made here; null where it was not made.</summary>
    public FirstDifference? Difference { get; init; }

    /// <summary>The kind in a word.</summary>
    public string KindText => Kind switch
    {
        FindingKind.Damaged => "damaged",
        FindingKind.Missing => "missing",
        FindingKind.Extra => "extra",
        FindingKind.Different => "different",
        _ => "other_version",
    };
}
