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

    /// <summary>Which dark sample and which of the acceleration come next. Red light and the other two axes are looked up by index instead.</summary>
    public int DarkAt;
    public int XAt;

    /// <summary>Their ticks; the last of all where none is left.</summary>
    public long DarkDue;
    public long XDue;

    /// <summary>The tick of the next sample of a piece.</summary>
    public static long DueOf(in ChannelPiece piece, int at, int step) => at < piece.Codes.Length ? (piece.FirstIndex + at) * step : long.MaxValue;

    /// <summary>The sample of another axis that belongs to one of the first.</summary>
    public static bool TryGet(in ChannelPiece piece, long index, out int code)
    {
        long at = index - piece.FirstIndex;
        bool isThere = at >= 0 && at < piece.Codes.Length;
        code = isThere ? piece.Codes[(int)at] : 0;
        return isThere;
    }
}
