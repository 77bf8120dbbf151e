// SPDX-License-Identifier: MIT
using System.Reflection;
using ScottPlot;
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>The one font of all figures, carried inside this assembly.</summary>
internal sealed class PlotFont : IFontResolver
{
    internal const string FamilyName = "DejaVu Sans";

    private PlotFont()
    {
    }

    internal static SKTypeface Typeface { get; } = Load();

    /// <summary>Makes the plotting package use the font; called before anything is drawn, works once.</summary>
    internal static void Register() => Registration.Done.GetHashCode();

    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) => Typeface;

    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) => Typeface;

    internal static SKFont Sized(float sizePx) => new(Typeface, sizePx) { Subpixel = true, Edging = SKFontEdging.Antialias };

    private static SKTypeface Load()
    {
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("DejaVuSans.ttf")!;
        using SKData data = SKData.Create(stream);
        return SKTypeface.FromData(data);
    }

    private static class Registration
    {
        internal static readonly object Done = Run();

        private static object Run()
        {
            // In front of the system's fonts, so that no installed font can change a figure.
            ScottPlot.Fonts.FontResolvers.Insert(0, new PlotFont());
            return new object();
        }
    }
}
