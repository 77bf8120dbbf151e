// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.SelfTests;

/// <summary>What an installation is checked by.</summary>
internal static class InstallationChecks
{
    private const string Codecs = "codecs";

    /// <summary>Every check.</summary>
    /// <param name="program">Folder of the command.</param>
    /// <param name="vectors">Folder of the vector set.</param>
    /// <param name="isShipped">Whether it is the one that came with the command.</param>
    /// <param name="outPath">Where results shall go; null: to the folder for temporary files.</param>
    /// <param name="cancellation">Set when the user interrupts.</param>
    public static IReadOnlyList<Check> All(string program, string vectors, bool isShipped, string? outPath, CancellationToken cancellation)
    {
        string codecs = Path.Combine(vectors, Codecs);
        var set = new VectorChecks(vectors, cancellation);
        Check[] shipped = isShipped ? [new("set of vectors", "the set is the one that the command was built with", set.IsShipped)] : [];
        return
        [
            new("parts", "every part beside the command is of its version", () => ProgramFiles.OneVersion(program)),
            new("draws", "random numbers are those of the published generator", KnownAnswers.Draws),
            new("sums", "files are compared by true SHA-256", KnownAnswers.Sums),
            new("checks of frames", "CRC-32C as in RFC 3720", () => CodecExamples.Checks(codecs)),
            new("framing", "COBS as published; damaged bytes are refused", () => CodecExamples.Framing(codecs)),
            new("numbers on air", "SFLOAT as in IEEE 11073-20601", () => CodecExamples.Numbers(codecs)),
            new("frames", "frames of the link protocol, byte for byte", () => CodecExamples.Frames(codecs)),
            new("loopback", "frames go through a link and back; no port is touched", LoopbackCheck.Run),
            .. shipped,
            new("vectors made again", "this machine makes every stimulus, truth, window and answer of the set, to the bit", set.IsMadeAgain),
            new("own answers", "the library that comes with the command meets the requirements of the set here", set.AreAnswersAccepted),
            new("folder", "results can be written whole, and are on disk as they were made",
                () => outPath is null ? FolderCheck.Run(Path.GetTempPath(), "the folder for temporary files") : FolderCheck.Run(outPath, outPath)),
        ];
    }
}
