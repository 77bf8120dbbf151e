// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Marks;
using Interval = SensorSim.Scoring.Statistics.Interval;

namespace SensorSim.Testing;

/// <summary>Figures and limits as messages show them.</summary>
internal static class FigureText
{
    /// <summary>A limit in words.</summary>
    public static string Of(in FigureLimit limit, MarkKind kind)
    {
        string value = Value(limit.Figure, limit.Value, kind);
        string word = limit.Figure.IsLeast ? "at least" : "at most";
        return limit.IsCertain ? $"{limit.Figure.Name} certainly {word} {value}" : $"{limit.Figure.Name} {word} {value}";
    }

    /// <summary>A value in the unit of its figure.</summary>
    public static string Value(Figure figure, double? value, MarkKind kind)
    {
        if (value is not double v)
        {
            return "undefined";
        }

        string unit = figure.Unit == Figure.OfKind ? kind.Info().ValueUnit : figure.Unit;
        return figure.IsShare ? $"{Number(v * 100)} %" : $"{Number(v)} {unit}".TrimEnd();
    }

    /// <summary>An interval in the unit of its figure.</summary>
    public static string Range(Figure figure, Interval interval) => figure.IsShare
        ? $"{Number(interval.Low * 100)} to {Number(interval.High * 100)} %"
        : $"{Number(interval.Low)} to {Number(interval.High)}";

    /// <summary>A time of the run [s].</summary>
    public static string Seconds(long ns) => string.Create(CultureInfo.InvariantCulture, $"{ns / 1e9:0.000} s");

    /// <summary>A number with as many digits as anybody reads, so that what misses a limit by little does not look as if it kept it.</summary>
    public static string Number(double value) => value.ToString(Math.Abs(value) >= 1000 ? "0.#" : "0.####", CultureInfo.InvariantCulture);
}
