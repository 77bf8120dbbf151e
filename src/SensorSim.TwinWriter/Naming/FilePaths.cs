// SPDX-License-Identifier: MIT
namespace SensorSim.TwinWriter.Naming;

/// <summary>Where the C of a C# file goes.</summary>
public static class FilePaths
{
    /// <summary>SensorSim.Detection/Beats/BeatJudge.cs becomes beats/beat_judge, without an ending.</summary>
    /// <param name="source">Path of the C# file.</param>
    /// <returns>Path beneath the folder of the C library.</returns>
    public static string Stem(string source)
    {
        ArgumentNullException.ThrowIfNull(source);
        string[] parts = source.Split('/');
        string folder = parts.Length > 2 ? Snake.Of(parts[^2]) : parts[0].EndsWith("FixedPoint", StringComparison.Ordinal) ? "fixed_point" : "common";
        string name = string.Join('_', parts[^1].Split('.')[..^1].Select(Snake.Of));
        return folder + "/" + name;
    }

    /// <summary>The macro that keeps a header from being read twice.</summary>
    /// <param name="stem">Path of the header without its ending.</param>
    /// <returns>The macro's name.</returns>
    public static string Guard(string stem)
    {
        ArgumentNullException.ThrowIfNull(stem);
        return "SS_" + stem.Replace('/', '_').ToUpperInvariant() + "_H";
    }
}
