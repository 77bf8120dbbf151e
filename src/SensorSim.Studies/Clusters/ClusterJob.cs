// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Clusters;

/// <summary>A study to be made in parts by a cluster's scheduler, and joined at the end.</summary>
public sealed record ClusterJob
{
    /// <summary>Words that begin the command: the program, or the runtime and the assembly. Paths are absolute.</summary>
    public required IReadOnlyList<string> Command { get; init; }

    /// <summary>Absolute path of the study file, seen alike by every machine of the cluster.</summary>
    public required string StudyPath { get; init; }

    /// <summary>Absolute path of the folder for scripts, logs, parts and the joined result; seen alike by every machine of the cluster.</summary>
    public required string Folder { get; init; }

    /// <summary>Parts, at least 1.</summary>
    public required int PartCount { get; init; }

    /// <summary>Cores that each part uses, at least 1.</summary>
    public int CoresPerPart { get; init; } = 1;

    /// <summary>The folder of a part.</summary>
    /// <param name="part">Number of the part as text, 1 to <see cref="PartCount"/>; may be a variable of a script.</param>
    public string PartFolder(string part) => $"{Folder}/part-{part}";

    /// <summary>The folder of the joined result.</summary>
    public string ResultFolder => $"{Folder}/result";

    /// <summary>The folder of logs.</summary>
    public string LogFolder => $"{Folder}/logs";
}
