// SPDX-License-Identifier: MIT
using System.Reflection;

namespace SensorSim.Studies.Installation;

/// <summary>What an installation is checked by.</summary>
public static class InstallationChecks
{
    /// <summary>Every check, in the order in which one stands on the other.</summary>
    /// <param name="program">Folder of the command.</param>
    /// <param name="command">The command.</param>
    /// <param name="vectors">Folder of the vector set.</param>
    /// <param name="shippedSum">SHA-256 of the manifest of the set that came with the command, as it was when the command was built; null: the set is another one.</param>
    /// <param name="links">Checks of codecs and links.</param>
    /// <param name="outPath">Where results shall go; null: to the folder for temporary files.</param>
    /// <param name="cancellation">Set when the user interrupts.</param>
    public static IReadOnlyList<Check> All(
        string program, Assembly command, string vectors, Func<string>? shippedSum, IReadOnlyList<Check> links, string? outPath, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(links);
        var set = new VectorChecks(vectors, cancellation);
        Check[] shipped = shippedSum is null ? [] : [new("set of vectors", "the set is the one that the command was built with", () => set.IsShipped(shippedSum()))];
        return
        [
            new("parts", "every part beside the command is of its version", () => ProgramFiles.OneVersion(program, command)),
            new("draws", "random numbers are those of the published generator", KnownAnswers.Draws),
            new("sums", "files are compared by true SHA-256", KnownAnswers.Sums),
            .. links,
            .. shipped,
            new("vectors made again", "this machine makes every stimulus, truth, window and answer of the set, to the bit", set.IsMadeAgain),
            new("own answers", "the library that comes with the command meets the requirements of the set here", set.AreAnswersAccepted),
            new("folder", "results can be written whole, and are on disk as they were made",
                () => outPath is null ? FolderCheck.Run(Path.GetTempPath(), "the folder for temporary files") : FolderCheck.Run(outPath, outPath)),
        ];
    }
}
