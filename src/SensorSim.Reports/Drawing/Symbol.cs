// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>The signs that a legend explains.</summary>
internal enum Symbol
{
    HollowCircle,
    FilledDiamond,
    VerticalLine,
    FilledTriangle,
    BlueLine,
    VermilionLine,
    BlueDashes,
    VermilionDashes,
    FilledDot,
    GreyBox,
    PaleBox,
    HollowBox,
    SmallCircle,
    Cross,
    OpenTriangle,
    ShortTick,
}

/// <summary>One sign and its text.</summary>
internal readonly record struct LegendEntry(Symbol Symbol, string Text);
