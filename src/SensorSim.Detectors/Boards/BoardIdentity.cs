// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Links.Frames.Payloads;

namespace SensorSim.Detectors.Boards;

/// <summary>What a board says of itself at the begin of a session.</summary>
/// <param name="Detector">Name and version of its detector, on one line.</param>
/// <param name="ProtocolVersion">Version of the link protocol that it speaks.</param>
/// <param name="LargestPayload">Largest payload that it takes [bytes].</param>
/// <param name="Credit">How many <c>samples</c> frames it can hold.</param>
/// <param name="StateBytes">Size of its detector's state [bytes]; 0 when it does not say.</param>
public sealed record BoardIdentity(string Detector, int ProtocolVersion, int LargestPayload, long Credit, long StateBytes)
{
    /// <summary>What a frame says; the text is the board's and may hold anything.</summary>
    internal static BoardIdentity Of(in AboutPayload about)
    {
        string name = OneLine.Of(about.Detector);
        return new BoardIdentity(name.Length == 0 ? "unnamed" : name, about.Version, about.LargestPayload, about.Credit, about.StateBytes);
    }
}
