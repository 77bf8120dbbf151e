// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Processes;

namespace SensorSim.Scenarios.Recordings;

/// <summary>Reads recorded noise from the text of a CSV file: equally spaced values, with their times or with a rate told elsewhere.</summary>
public static class RecordingReader
{
    /// <summary>How far a time may lie from its even place, in parts of the spacing: stamps rounded to milliseconds pass up to 600 Hz.</summary>
    public const double MostUneven = 0.3;

    private const string Header = "value, or time_s,value";
    private const int MostMistakes = 20;

    /// <summary>Reads a table with the column <c>value</c> and, if wanted, <c>time_s</c> before or after it.</summary>
    /// <param name="text">The text of the file.</param>
    /// <param name="rateHz">Sampling rate that the scenario gives [Hz]; null: the times say it.</param>
    /// <param name="rateKey">Name of the key that gives it.</param>
    /// <param name="report">Takes line and column, from 1 (0: as a whole), and what is wrong there; at most 20 times.</param>
    /// <returns>The recording; null where anything was wrong.</returns>
    public static NoiseRecording? Read(string text, double? rateHz, string rateKey, Action<int, int, string> report)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(report);
        int mistakes = 0;
        void Report(int line, int column, string message)
        {
            mistakes++;
            report(line, column, message);
        }

        var lines = new LineReader(text);
        lines.TryNext(out string first, out _);
        string[] names = [.. first.Split(',').Select(n => n.Trim())];
        int valueColumn = Array.IndexOf(names, "value");
        int timeColumn = Array.IndexOf(names, "time_s");
        if (valueColumn < 0 || names.Length != (timeColumn < 0 ? 1 : 2))
        {
            Report(1, 0, $"found the header {Quoted(first)}; it must be {Header}");
            return null;
        }

        if (timeColumn >= 0 && rateHz is not null)
        {
            Report(1, 0, $"the file has times, and {rateKey} gives a rate as well; leave out one of them");
            return null;
        }

        if (timeColumn < 0 && rateHz is null)
        {
            Report(1, 0, $"the file has no times; set {rateKey}, or add the column time_s");
            return null;
        }

        var values = new List<double>();
        var times = new List<double>();
        while (mistakes < MostMistakes && lines.TryNext(out string line, out int number))
        {
            if (values.Count == NoiseRecording.Most)
            {
                Report(number, 0, Invariant($"there are more than {NoiseRecording.Most} values; at most so many fit"));
                break;
            }

            string[] fields = line.Split(',');
            if (fields.Length != names.Length)
            {
                Report(number, 0, Invariant($"found {fields.Length} fields; the header has {names.Length}"));
                continue;
            }

            values.Add(Number(fields, valueColumn, number, Report));
            if (timeColumn >= 0)
            {
                times.Add(Number(fields, timeColumn, number, Report));
            }
        }

        if (mistakes > 0)
        {
            return null;
        }

        if (values.Count < NoiseRecording.Fewest)
        {
            Report(1, 0, Invariant($"found {values.Count} values; at least {NoiseRecording.Fewest} are needed"));
            return null;
        }

        if (values.TrueForAll(v => v == values[0]))
        {
            Report(2, 0, "all values are the same; noise must vary");
            return null;
        }

        double? rate = rateHz ?? Rate(times, Report);
        return rate is double hertz ? new NoiseRecording([.. values], hertz) : null;
    }

    // From the first and the last time; every one between must stand near its even place.
    private static double? Rate(List<double> times, Action<int, int, string> report)
    {
        double spacing = (times[^1] - times[0]) / (times.Count - 1);
        if (!(spacing >= 1e-4 && spacing <= 0.05))
        {
            report(1, 0, Invariant($"times from {times[0]} to {times[^1]} s give a rate of {(spacing == 0 ? 0 : Math.Round(1000 / spacing) / 1000)} Hz; 20 to 10000 Hz are taken"));
            return null;
        }

        for (int i = 1; i < times.Count; i++)
        {
            double expected = times[0] + (i * spacing);
            if (Math.Abs(times[i] - expected) > MostUneven * spacing)
            {
                report(i + 2, 0, Invariant($"time {times[i]} s is not evenly spaced; {Math.Round(1e6 * expected) / 1e6} s would be"));
                return null;
            }
        }

        return 1 / spacing;
    }

    private static double Number(string[] fields, int index, int line, Action<int, int, string> report)
    {
        const NumberStyles Styles = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent
            | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite;
        if (double.TryParse(fields[index], Styles, CultureInfo.InvariantCulture, out double value) && Math.Abs(value) <= 1e9)
        {
            return value;
        }

        report(line, fields.Take(index).Sum(f => f.Length + 1) + 1, $"{Quoted(fields[index])} must be a number between -1e9 and 1e9, with a point for decimals");
        return 0;
    }

    private static string Quoted(string text)
    {
        string trimmed = text.Trim();
        return "\"" + (trimmed.Length > 40 ? trimmed[..40] + "…" : trimmed) + "\"";
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    // Line by line: a list of all lines of a large file would take several times its size. Empty lines at the end are none.
    private sealed class LineReader(string text)
    {
        private int _place;
        private int _number;

        public bool TryNext(out string line, out int number)
        {
            if (_place >= text.Length)
            {
                (line, number) = ("", _number);
                return false;
            }

            int end = text.IndexOf('\n', _place);
            end = end < 0 ? text.Length : end;
            line = text[_place..end].TrimEnd('\r');
            _place = end + 1;
            number = ++_number;
            return line.Length > 0 || _number == 1 || text.AsSpan(_place <= text.Length ? _place : text.Length).ContainsAnyExcept('\r', '\n');
        }
    }
}
