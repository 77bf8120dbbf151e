// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Figures;

/// <summary>Takes the first figure's start-up cost at a time of the caller's choice.</summary>
public static class FigureWarmUp
{
    /// <summary>
    /// Draws small figures into nothing: loads the native library and the font and compiles the code that draws with the plotting
    /// package. What a run does not draw (trends) or what is quick without the package (strips) would cost more here than it saves.
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
        SignalFigure.Write([signal], "-", Stream.Null, FigureFormat.Png);
        SignalFigure.Write([signal], "-", Stream.Null, FigureFormat.Svg);
        ErrorFigure.Write([error], "-", Stream.Null, FigureFormat.Png);
    }
}
