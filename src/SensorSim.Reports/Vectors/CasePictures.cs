// SPDX-License-Identifier: MIT
using SensorSim.Reports.Drawing;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;
using SkiaSharp;

namespace SensorSim.Reports.Vectors;

/// <summary>The picture of a case of a vector set: its signals with truth, what is asked, and the library's answers.</summary>
/// <remarks>The same input gives the same bytes on one machine. Safe to call from several threads at once.</remarks>
public static class CasePictures
{
    // A set has dozens of them: half the size of other figures.
    private const float Scale = 0.5f;
    private const int MostSignals = 2;
    private const int MostReadings = 2;

    /// <summary>The bytes of the PNG file.</summary>
    /// <param name="picture">What to show.</param>
    public static byte[] Png(CasePicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        CaseWindow window = CaseWindow.Of(picture);
        int[] channels = [.. Channels(picture)];
        List<TimePanel> panels = [.. channels.Select(c => new SignalTimePanel(CaseSignals.Panel(picture, c, window)))];

        // What the library is known to miss comes first; what finds no room as a panel becomes a row.
        List<PlannedRequirement> readings =
        [
            .. picture.Case.Requirements.Where(r => r.Rule == RequirementRule.Readings).OrderBy(r => picture.Case.DeviationFrom(r.Id) is null)
                .DistinctBy(r => (r.Kind, r.Channel)),
        ];
        panels.AddRange(readings.Take(MostReadings).Select(r => CaseReadings.Panel(picture, r, window)).OfType<TimePanel>());
        IReadOnlyList<CaseLane> lanes = CaseLanes.Of(picture, window, channels, [.. readings.Skip(MostReadings)]);
        if (lanes.Count > 0)
        {
            panels.Add(new LanesTimePanel(lanes));
        }

        int height = TimeStack.HeightPx(panels);
        PlotFont.Register();
        using SKBitmap bitmap = new(new SKImageInfo((int)(Ink.WidthPx * Scale), (int)(height * Scale), SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (SKCanvas canvas = new(bitmap))
        {
            canvas.Clear(Ink.Paper);
            canvas.Scale(Scale);
            TimeStack.Draw(canvas, panels, Title(picture.Case));
        }

        return PaletteImage.Png(bitmap);
    }

    // "pass" is the word of the plan for an easy case: in a title it would read as a verdict.
    private static string Title(PlannedCase planned) => $"{planned.Name}: disturbance {planned.Disturbance.Replace('_', ' ')}, level {SetWords.Level(planned.Level)}";

    // What requirements speak of comes first, then ECG and light: a picture without a signal would say nothing.
    private static IEnumerable<int> Channels(CasePicture picture)
    {
        StreamFormat format = picture.Captured.Format;
        IEnumerable<ChannelName> asked = picture.Case.Requirements.Select(r => r.Channel).OfType<ChannelName>();
        ChannelName[] usual = [ChannelName.Ecg, ChannelName.Infrared, ChannelName.Green, ChannelName.Red, ChannelName.AccelX];
        return asked.Concat(usual).Distinct().Select(format.IndexOf).Where(c => c >= 0).Take(MostSignals).Order();
    }
}
