// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;

namespace SensorSim.Reports.Tests;

/// <summary>Made-up signals with the look of the real ones; shapes and numbers stand for nothing.</summary>
internal static class Samples
{
    internal const double BeatS = 0.82;
    private const double ArrivalS = 0.21;

    internal static SignalPanel Ecg(double seconds = 10)
    {
        double[] times = Grid(250, seconds);
        double[] values = Array.ConvertAll(times, t => Sum(t, Heartbeat) + (0.02 * Wobble(t)));
        return new SignalPanel
        {
            Title = "ECG",
            Unit = "mV",
            TimesS = times,
            Values = values,
            TruthMarks = Beats(seconds, 0.3, 1.1, "N"),
            DetectedMarks = Beats(seconds, 0.302, 1.08, null),
            TruthLegend = "R peak, true",
            DetectedLegend = "R peak, detected",
        };
    }

    /// <summary>Received light: it falls when the vessel fills, so the foot is a maximum. With a gap and a missed foot.</summary>
    internal static SignalPanel Infrared(double seconds = 10)
    {
        double[] times = [.. Grid(100, seconds).Where(t => t is < 4.2 or > 5.1)];
        double[] values = Array.ConvertAll(times, t => 182_000 - (1500 * Sum(t, Pulse)) + (60 * Wobble(t)));
        return new SignalPanel
        {
            Title = "Infrared light",
            Unit = "ADC codes",
            TimesS = times,
            Values = values,
            TruthMarks = Beats(seconds, 0.3 + ArrivalS, 182_000, null),
            DetectedMarks = [.. Beats(seconds, 0.305 + ArrivalS, 182_010, null).Where((_, i) => i != 7)],
            TruthLegend = "pulse foot (tangents), true",
            DetectedLegend = "pulse foot, detected",
        };
    }

    internal static SignalPanel Plain(string title, string unit, double rateHz, double level, double size, double seconds = 10)
    {
        double[] times = Grid(rateHz, seconds);
        return new SignalPanel
        {
            Title = title,
            Unit = unit,
            TimesS = times,
            Values = Array.ConvertAll(times, t => level + (size * Math.Sin(2.1 * t)) + (size * 0.2 * Wobble(t))),
        };
    }

    internal static SignalPanel[] FiveSignals(double seconds = 10) =>
    [
        Ecg(seconds),
        Infrared(seconds),
        Plain("Red light", "ADC codes", 100, 151_200, 800, seconds),
        Plain("Dark slot", "ADC codes", 100, 2_050, 12, seconds),
        Plain("Acceleration, x", "g", 50, 0.1, 0.03, seconds) with
        {
            TruthMarks = [new PlotMark(3.1, null, "knock")],
            DetectedMarks = [new PlotMark(3.2)],
            TruthLegend = "movement, true",
            DetectedLegend = "movement, detected",
        },
    ];

    internal static ErrorPanel Errors(string title, double biasMs, double sdMs, int count)
    {
        double[] errors = new double[count];
        for (int i = 0; i < count; i++)
        {
            double u = (i + 0.5) / count;
            errors[i] = biasMs + (sdMs * 0.551 * Math.Log(u / (1 - u)));
        }

        return ErrorPanel.FromErrors(title, errors, new ErrorSummary(count, biasMs, sdMs, Math.Abs(biasMs) + (2 * sdMs)));
    }

    internal static ErrorPanel[] ThreeErrors() =>
        [Errors("R peak", 0.4, 1.2, 72), Errors("Pulse foot (tangents)", -2.1, 3.3, 71), Errors("Arrival time", -2.5, 3.5, 71)];

    internal static TrendPanel[] TwoTrends(int beats = 73)
    {
        double[] times = Array.ConvertAll(new double[beats], _ => 0.0);
        double[] rate = new double[beats];
        double[] arrival = new double[beats];
        for (int i = 0; i < beats; i++)
        {
            times[i] = i * BeatS;
            rate[i] = 73 + (3 * Math.Sin(i * 0.4));
            arrival[i] = 210 + (4 * Math.Sin(i * 0.1));
        }

        return
        [
            Trend("Heart rate", "bpm", times, rate, 0.6),
            Trend("Arrival time", "ms", times, arrival, 2.5),
        ];
    }

    private static TrendPanel Trend(string title, string unit, double[] times, double[] truth, double error) => new()
    {
        Title = title,
        Unit = unit,
        TruthTimesS = times,
        TruthValues = truth,
        ReadingTimesS = times,
        ReadingValues = [.. truth.Select((value, i) => i is > 30 and < 36 ? double.NaN : value + (error * Wobble(i * 0.37)))],
    };

    private static double[] Grid(double rateHz, double seconds) =>
        [.. Enumerable.Range(0, (int)(rateHz * seconds)).Select(i => i / rateHz)];

    private static PlotMark[] Beats(double seconds, double afterS, double value, string? label) =>
        [.. Enumerable.Range(0, (int)((seconds - 1) / BeatS)).Select(i => new PlotMark((i * BeatS) + afterS, value, label))];

    private static double Sum(double t, Func<double, double> shape)
    {
        double beat = Math.Floor(t / BeatS) * BeatS;
        return shape(t - beat) + shape(t - beat + BeatS);
    }

    private static double Heartbeat(double t) =>
        Bell(t, 0.13, 0.025, 0.12) + Bell(t, 0.27, 0.009, -0.12) + Bell(t, 0.3, 0.011, 1.1) + Bell(t, 0.33, 0.01, -0.2) + Bell(t, 0.58, 0.05, 0.3);

    private static double Pulse(double t)
    {
        double s = t - 0.3 - ArrivalS;
        return s <= 0 ? 0 : (Bell(s, 0.14, 0.055, 1) + Bell(s, 0.33, 0.09, 0.45)) * (1 - Math.Exp(-s / 0.03));
    }

    private static double Bell(double t, double at, double width, double height) =>
        height * Math.Exp(-(t - at) * (t - at) / (2 * width * width));

    private static double Wobble(double t) => Math.Sin(t * 913.1) * Math.Sin(t * 377.7);
}
