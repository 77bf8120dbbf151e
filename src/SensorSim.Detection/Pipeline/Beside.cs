// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>The samples that go beside the light, and how far they have been taken.</summary>
internal ref struct Beside
{
    public ChannelPiece Red;
    public ChannelPiece Dark;
    public ChannelPiece X;
    public ChannelPiece Y;
    public ChannelPiece Z;
    public int DarkAt;
    public int XAt;

    /// <summary>The sample of another axis that belongs to one of the first.</summary>
    public static bool TryGet(in ChannelPiece piece, long index, out int code)
    {
        long at = index - piece.FirstIndex;
        bool isThere = at >= 0 && at < piece.Codes.Length;
        code = isThere ? piece.Codes[(int)at] : 0;
        return isThere;
    }
}
