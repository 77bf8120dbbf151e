// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;

namespace SensorSim.WordLengths;

/// <summary>The study of canceller and spectrum as a picture.</summary>
internal static class MovementPicture
{
    private static readonly (CurveStyle Style, string Text)[] s_legend =
    [
        (CurveStyle.First, "canceller"),
        (CurveStyle.Second, "rate, coherence 0.9"),
        (CurveStyle.SecondDashed, "rate, coherence 0.5"),
    ];

    public static void Write(string path, CancellerRow[] functions, CancellerRow[] weights, params (string Title, SpectrumRow[] Rows)[] spectrum)
    {
        CurvePanel[] panels =
        [
            Attenuation("bits of the functions", functions),
            Attenuation("bits of the weights", weights),
            .. spectrum.Select(s => new CurvePanel
            {
                Title = "mean abs. error (bpm)",
                XTitle = $"bits of {s.Title}",
                Curves =
                [
                    new Curve(CurveStyle.Second, Places(s.Rows), [.. s.Rows.Select(r => r.ErrorBpm)]),
                    new Curve(CurveStyle.SecondDashed, Places(s.Rows), [.. s.Rows.Select(r => r.HalfErrorBpm)]),
                ],
                Lowest = 0,
                Highest = 10,
            }),
        ];
        CurveFigure.Write(panels, s_legend, "How many bits are enough under movement", path);
    }

    private static CurvePanel Attenuation(string title, CancellerRow[] rows) => new()
    {
        Title = "artefact down by (dB)",
        XTitle = title,
        Curves = [new Curve(CurveStyle.First, [.. rows.Select(r => (double)r.Bits)], [.. rows.Select(r => r.AttenuationDb)])],
        Lowest = -5,
        Highest = 16,
    };

    private static double[] Places(SpectrumRow[] rows) => [.. rows.Select(r => (double)r.Bits)];
}
