// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Twins.Models;
using SensorSim.Reports.Figures;

namespace SensorSim.WordLengths;

/// <summary>The study as a picture: spread of times above, share of right answers below.</summary>
internal static class Picture
{
    private static readonly (CurveStyle Style, string Text, Func<StudyRow, TwinScore?> Of)[] s_curves =
    [
        (CurveStyle.First, "R peaks, clean", r => r.EcgClean),
        (CurveStyle.FirstDashed, "R peaks, 12 dB", r => r.EcgNoisy),
        (CurveStyle.Second, "feet, clean", r => r.LightClean),
        (CurveStyle.SecondDashed, "feet, 36 dB", r => r.LightNoisy),
    ];

    public static void Write(string path, params (string Title, StudyRow[] Rows)[] studies)
    {
        CurvePanel[] panels =
        [
            .. studies.Select(s => new CurvePanel
            {
                Title = "SD of times (ms)",
                XTitle = s.Title,
                Curves = [.. s_curves.Select(c => CurveOf(c.Style, s.Rows, c.Of, t => t.SdMs))],
                IsInDecades = true,
                Lowest = 0.1,
                Highest = 100,
            }),
            .. studies.Select(s => new CurvePanel
            {
                Title = "smaller of Se and +P (%)",
                XTitle = s.Title,
                Curves = [.. s_curves.Select(c => CurveOf(c.Style, s.Rows, c.Of, Worse))],
                Lowest = 0,
                Highest = 105,
            }),
        ];
        CurveFigure.Write(panels, [.. s_curves.Select(c => (c.Style, c.Text))], "How many bits are enough", path);
    }

    // Nothing found at all is no share of right answers.
    private static double Worse(TwinScore score) =>
        double.IsFinite(score.PredictivityPercent) ? Math.Min(score.SensitivityPercent, score.PredictivityPercent) : 0;

    private static Curve CurveOf(CurveStyle style, StudyRow[] rows, Func<StudyRow, TwinScore?> of, Func<TwinScore, double> value) => new(
        style,
        [.. rows.Select(r => (double)r.Bits)],
        [.. rows.Select(r => of(r) is TwinScore s ? value(s) : double.NaN)]);
}
