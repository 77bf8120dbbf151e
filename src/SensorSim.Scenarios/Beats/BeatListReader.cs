// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Beats;

/// <summary>Reads lists of beats: each with its class and the interval up to the next beat.</summary>
public static class BeatListReader
{
    /// <summary>Shortest interval that is taken [ms].</summary>
    public const double ShortestRrMs = 200;

    /// <summary>Longest interval that is taken [ms].</summary>
    public const double LongestRrMs = 15000;

    private const string InlineRight = "a beat is a word and the ms up to the next beat, such as normal 800";
    private const string Header = "rr_ms, or rr_ms,class";
    private const int MostMistakes = 20;

    private static readonly (string Word, BeatClass Class)[] s_words =
    [
        ("normal", BeatClass.Normal),
        ("atrial", BeatClass.AtrialPremature),
        ("ventricular", BeatClass.VentricularPremature),
        ("junctional", BeatClass.JunctionalEscape),
        ("paced", BeatClass.Paced),
    ];

    /// <summary>The words for the classes of beats.</summary>
    public static IEnumerable<string> Words => s_words.Select(w => w.Word);

    /// <summary>Reads a list within a line, such as <c>normal 800, ventricular 480, normal 1120</c>.</summary>
    /// <param name="text">The list.</param>
    /// <param name="report">Takes the place in the text, from 0, and what is wrong there.</param>
    /// <returns>The beats that could be read, intervals in seconds.</returns>
    public static IReadOnlyList<(BeatClass Class, double RrSeconds)> ReadInline(string text, Action<int, string> report)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(report);
        var beats = new List<(BeatClass Class, double RrSeconds)>();
        int begin = 0;
        foreach (string item in text.Split(','))
        {
            int lead = item.Length - item.TrimStart().Length;
            int place = begin + lead;
            string[] parts = item.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            int numberPlace = parts.Length == 2 ? begin + item.IndexOf(parts[1], lead + parts[0].Length, StringComparison.Ordinal) : 0;
            begin += item.Length + 1;
            if (parts.Length != 2)
            {
                report(place, $"{Quoted(item)} is no beat; {InlineRight}");
                continue;
            }

            BeatClass? found = Class(parts[0], m => report(place, m));
            double? rr = Interval(parts[1], m => report(numberPlace, m));
            if (found is BeatClass known && rr is double seconds)
            {
                beats.Add((known, seconds));
            }
        }

        return beats;
    }

    /// <summary>Reads a table with the columns <c>rr_ms</c> and, if wanted, <c>class</c>; without a class a beat is normal.</summary>
    /// <param name="text">The text of the file.</param>
    /// <param name="report">Takes line and column, from 1 (0: as a whole), and what is wrong there; at most 20 times.</param>
    /// <returns>The beats that could be read, intervals in seconds.</returns>
    public static IReadOnlyList<(BeatClass Class, double RrSeconds)> ReadCsv(string text, Action<int, int, string> report)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(report);
        var beats = new List<(BeatClass Class, double RrSeconds)>();
        string[] lines = text.Split('\n');
        string[] names = [.. lines[0].TrimEnd('\r').Split(',').Select(n => n.Trim())];
        int rrColumn = Array.IndexOf(names, "rr_ms");
        int classColumn = Array.IndexOf(names, "class");
        if (rrColumn < 0 || names.Length != (classColumn < 0 ? 1 : 2))
        {
            report(1, 0, $"found the header {Quoted(lines[0])}; it must be {Header}");
            return beats;
        }

        int mistakes = 0;
        for (int i = 1; i < lines.Length && mistakes < MostMistakes; i++)
        {
            string line = lines[i].TrimEnd('\r');
            string[] fields = line.Split(',');
            if (line.Length == 0 && i == lines.Length - 1)
            {
                break;
            }

            if (fields.Length != names.Length)
            {
                Report(0, string.Create(CultureInfo.InvariantCulture, $"found {fields.Length} fields; the header has {names.Length}"));
                continue;
            }

            double? rr = Interval(fields[rrColumn].Trim(), m => Report(Column(fields, rrColumn), m));
            string word = classColumn < 0 ? "" : fields[classColumn].Trim();
            BeatClass? found = word.Length == 0 ? BeatClass.Normal : Class(word, m => Report(Column(fields, classColumn), m));
            if (found is BeatClass known && rr is double seconds)
            {
                beats.Add((known, seconds));
            }

            void Report(int column, string message)
            {
                mistakes++;
                report(i + 1, column, message);
            }
        }

        if (beats.Count == 0 && mistakes == 0)
        {
            report(1, 0, $"there is no beat after the header {Header}; at least one is needed");
        }

        return beats;
    }

    private static int Column(string[] fields, int index) => fields.Take(index).Sum(f => f.Length + 1) + 1;

    private static BeatClass? Class(string word, Action<string> report)
    {
        foreach ((string known, BeatClass found) in s_words)
        {
            if (known == word)
            {
                return found;
            }
        }

        report($"{Quoted(word)} is no beat; the nearest is {NearestName.Find(word, Words)} of {string.Join(", ", Words)}");
        return null;
    }

    private static double? Interval(string text, Action<string> report)
    {
        if (double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double ms) && ms >= ShortestRrMs && ms <= LongestRrMs)
        {
            return ms / 1000;
        }

        report(string.Create(CultureInfo.InvariantCulture, $"{Quoted(text)} must be an interval of {ShortestRrMs} to {LongestRrMs} ms"));
        return null;
    }

    private static string Quoted(string text)
    {
        string trimmed = text.Trim();
        return "\"" + (trimmed.Length > 40 ? trimmed[..40] + "…" : trimmed) + "\"";
    }
}
