// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Reports.Figures;

/// <summary>Takes the first figure's start-up cost at a time of the caller's choice.</summary>
public static class FigureWarmUp
{
    /// <summary>
    /// Draws a small figure of each kind into nothing: loads the native library and the font and compiles the drawing code.
    /// Run on a second thread while the signals are made, it takes that time out of the way of the first real figure.
    /// </summary>
    public static void Run()
    {
        double[] times = [0, 1, 2];
        double[] values = [0, 1, 0];
        SignalPanel signal = new()
        {
            Title = "-",
            Unit = "",
            TimesS = times,
            Values = values,
            TruthMarks = [new PlotMark(1, 1)],
            DetectedMarks = [new PlotMark(1, 1)],
        };
        ErrorPanel error = ErrorPanel.FromErrors("-", values, new ErrorSummary(3, 0, 1, 1));
        TrendPanel trend = new()
        {
            Title = "-",
            Unit = "",
            TruthTimesS = times,
            TruthValues = values,
            ReadingTimesS = times,
            ReadingValues = values,
        };
        StripPanel strip = new()
        {
            EndS = 3,
            EcgTimesS = times,
            EcgMv = values,
            LightTimesS = times,
            Light = values,
            Beats = [new StripBeat(1, BeatClass.Normal)],
            FootTimesS = [1],
        };
        SignalFigure.Write([signal], "-", Stream.Null, FigureFormat.Png);
        SignalFigure.Write([signal], "-", Stream.Null, FigureFormat.Svg);
        StripFigure.Write(strip, "-", Stream.Null, FigureFormat.Png);
        ErrorFigure.Write([error], "-", Stream.Null, FigureFormat.Png);
        TrendFigure.Write([trend], "-", Stream.Null, FigureFormat.Png);
    }
}
