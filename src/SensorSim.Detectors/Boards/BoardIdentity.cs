// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Boards;

/// <summary>What a board says of itself at the begin of a session.</summary>
/// <param name="Detector">Name and version of its detector, on one line.</param>
/// <param name="ProtocolVersion">Version of the link protocol that it speaks.</param>
/// <param name="LargestPayload">Largest payload that it takes [bytes].</param>
/// <param name="Credit">How many <c>samples</c> frames it can hold.</param>
/// <param name="StateBytes">Size of its detector's state [bytes]; 0 when it does not say.</param>
public sealed record BoardIdentity(string Detector, int ProtocolVersion, int LargestPayload, long Credit, long StateBytes);
