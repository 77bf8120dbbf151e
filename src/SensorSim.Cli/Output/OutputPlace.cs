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
    public static OutputFolder Open(string path) => Open(path, name => new OutputFolder(name));

    /// <summary>Opens it so that its files can be looked at while they grow, and stay should the process die.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <exception cref="UsageException">The path is empty.</exception>
    /// <exception cref="IOException">The folder cannot be made, or an earlier run left one; the message names the path as the user gave it.</exception>
    public static OutputFolder OpenVisible(string path) => Open(path, OutputFolder.Visible);

    private static OutputFolder Open(string path, Func<string, OutputFolder> make)
    {
        if (string.IsNullOrWhiteSpace(path))
        {
            throw new UsageException("--out must name a folder, for example --out out/rest");
        }

        try
        {
            return make(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            if (Path.Exists(path + OutputFolder.UnfinishedEnding) && !File.Exists(path))
            {
                throw;
            }

            string why = File.Exists(path) ? "this is a file" : "no folder can be made here";
            throw new IOException($"--out {path}: {why}; name a folder on a disk that can be written", e);
        }
    }
}
