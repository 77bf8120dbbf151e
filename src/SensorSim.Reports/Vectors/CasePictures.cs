// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Making;
using SkiaSharp;

namespace SensorSim.Reports.Vectors;

/// <summary>The picture of a case of a vector set: its signals with truth, the library's answers, and where none may be given.</summary>
/// <remarks>The same input gives the same bytes on one machine. Safe to call from several threads at once.</remarks>
public static class CasePictures
{
    // A set has dozens of them: half the size of other figures.
    private const float Scale = 0.5f;
    private const int MostSignals = 2;
    private const int MostReadings = 1;

    /// <summary>The bytes of the PNG file.</summary>
    /// <param name="picture">What to show.</param>
    public static byte[] Png(CasePicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        CaseWindow window = CaseWindow.Of(picture);
        List<TimePanel> panels = [.. Channels(picture).Select(c => new SignalTimePanel(CaseSignals.Panel(picture, c, window)))];
        panels.AddRange(picture.Case.Requirements.Where(r => r.Rule == RequirementRule.Readings)
            .Select(r => CaseReadings.Panel(picture, r, window)).OfType<TimePanel>().Take(MostReadings));
        int height = TimeStack.HeightPx(panels.Count);
        string title = FormattableString.Invariant($"{picture.Case.Name}: {picture.Case.Disturbance.Replace('_', ' ')}, {picture.Case.Level.Text().Replace('_', ' ')}");
        PlotFont.Register();
        using SKBitmap bitmap = new(new SKImageInfo((int)(Ink.WidthPx * Scale), (int)(height * Scale), SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (SKCanvas canvas = new(bitmap))
        {
            canvas.Clear(Ink.Paper);
            canvas.Scale(Scale);
            TimeStack.Draw(canvas, panels, title);
        }

        return PaletteImage.Png(bitmap);
    }

    // What requirements speak of comes first, then ECG and light: a picture without a signal would say nothing.
    private static IEnumerable<int> Channels(CasePicture picture)
    {
        StreamFormat format = picture.Captured.Format;
        IEnumerable<ChannelName> asked = picture.Case.Requirements.Select(r => r.Channel).OfType<ChannelName>();
        ChannelName[] usual = [ChannelName.Ecg, ChannelName.Infrared, ChannelName.Green, ChannelName.Red, ChannelName.AccelX];
        return asked.Concat(usual).Distinct().Select(format.IndexOf).Where(c => c >= 0).Take(MostSignals).Order();
    }
}
