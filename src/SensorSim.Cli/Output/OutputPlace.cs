// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Files.Output;

namespace SensorSim.Cli.Output;

/// <summary>Opens the folder that <c>--out</c> names.</summary>
internal static class OutputPlace
{
    /// <summary>Opens it.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <exception cref="UsageException">The path is empty.</exception>
    /// <exception cref="IOException">The folder cannot be made; the message names the path as the user gave it.</exception>
    public static OutputFolder Open(string path)
    {
        if (string.IsNullOrWhiteSpace(path))
        {
            throw new UsageException("--out must name a folder, for example --out out/rest");
        }

        try
        {
            return new OutputFolder(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            string why = File.Exists(path) ? "this is a file" : "no folder can be made here";
            throw new IOException($"--out {path}: {why}; name a folder on a disk that can be written", e);
        }
    }
}
