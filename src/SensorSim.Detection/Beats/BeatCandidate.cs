// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>What is known of one hump: where its complex lies, how high and steep it is, and what it looks like.</summary>
public struct BeatCandidate
{
    /// <summary>Slopes round the R peak, 12 bits and sign, in units of 2^<see cref="Scale"/>.</summary>
    public Slopes16 Slopes;

    /// <summary>Shift of the slopes.</summary>
    public int Scale;

    /// <summary>Place of the R peak [1/256 working sample].</summary>
    public long Position256;

    /// <summary>Deviation of the R peak from the level before the complex, sign kept.</summary>
    public int Deviation;

    /// <summary>Steepest slope of the complex.</summary>
    public int Slope;

    /// <summary>Height of the hump.</summary>
    public int Height;

    /// <summary>Likeness to the usual beats [1/256], −256 to 256.</summary>
    public int Fit;

    /// <summary>Likeness to the other kind of beats [1/256], −256 to 256.</summary>
    public int OtherFit;

    /// <summary>Size of what is like the usual beats, in slopes.</summary>
    public int Size;

    /// <summary>Size of what is like the other kind.</summary>
    public int OtherSize;

    /// <summary>Whether a beat may have been lost in a gap right before it.</summary>
    public bool IsAfterLoss;

    /// <summary>Whether the complex, or the kind it belongs to, is wide.</summary>
    public bool IsWide;

    /// <summary>Trust, 0 to 255.</summary>
    public byte Quality;
}
