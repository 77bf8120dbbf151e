// SPDX-License-Identifier: MIT
using SensorSim.Links.SelfChecks;
using SensorSim.Studies.Installation;

namespace SensorSim.Cli.SelfTests;

/// <summary>The checks of codecs and links, as the installation check wants them: studies know nothing of links.</summary>
internal static class LinkChecks
{
    private const string Codecs = "codecs";

    /// <summary>All of them.</summary>
    /// <param name="vectors">Folder of the vector set.</param>
    public static IReadOnlyList<Check> All(string vectors)
    {
        string codecs = Path.Combine(vectors, Codecs);
        return
        [
            new("checks of frames", "CRC-32C as in RFC 3720", () => CheckFinding.Passed(CodecExamples.Checks(codecs))),
            new("framing", "COBS as published; damaged bytes are refused", () => CheckFinding.Passed(CodecExamples.Framing(codecs))),
            new("numbers on air", "SFLOAT as in IEEE 11073-20601", () => CheckFinding.Passed(CodecExamples.Numbers(codecs))),
            new("frames", "frames of the link protocol, byte for byte", () => CheckFinding.Passed(CodecExamples.Frames(codecs))),
            new("loopback", "frames go through a link and back; no port is touched", () => CheckFinding.Passed(LoopbackCheck.Run())),
        ];
    }
}
