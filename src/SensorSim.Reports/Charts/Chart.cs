// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Reports.Figures;
using SkiaSharp;

namespace SensorSim.Reports.Charts;

/// <summary>A figure that knows its height and draws itself on a page of the common width.</summary>
/// <remarks>Drawing the same chart twice, or on several threads, gives the same.</remarks>
internal abstract class Chart
{
    /// <summary>Headline, also the text for readers of screens.</summary>
    internal required string Title { get; init; }

    internal abstract int HeightPx { get; }

    internal abstract void Draw(SKCanvas canvas, Pens pens);

    /// <summary>The bytes of a file.</summary>
    internal byte[] Bytes(FigureFormat format) => Page.Bytes(format, Title, HeightPx, canvas =>
    {
        using Pens pens = new();
        Draw(canvas, pens);
    });
}
