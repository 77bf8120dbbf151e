// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Identity;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Calibrations;

/// <summary>Reads a calibration file and reports every mistake with its place.</summary>
public static class CalibrationReader
{
    private const int LargestBytes = 1 << 16;
    private const string Calibration = "calibration";
    private const string Pressure = "pressure";
    private const string Oxygen = "oxygen";
    private const string Trend = "trend";
    private static readonly string[] s_sections = [Calibration, Oxygen, Pressure, Trend];

    /// <summary>Reads a file.</summary>
    /// <param name="path">Its path.</param>
    /// <exception cref="ScenarioException">The file is missing, unreadable or holds mistakes.</exception>
    public static CalibrationFile ReadFile(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string wrong = "";
        byte[]? bytes = SmallFile.Read(path, LargestBytes, "64 KiB, and a calibration is a page of text", "there is no such file", m => wrong = m);
        return bytes is null
            ? throw new ScenarioException([new ScenarioMistake(path.Length == 0 ? Calibration : path, 0, 0, $"{wrong}; give the path of a calibration (TOML)")])
            : Read(bytes, path);
    }

    private static CalibrationFile Read(byte[] bytes, string path)
    {
        var mistakes = new MistakeList(path);
        DocumentSyntax document = TomlText.Parse(SmallFile.Text(bytes), path, mistakes);
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            mistakes.Add(pair.Span, $"{TomlNames.Shown(TomlNames.Text(pair.Key))} stands outside of every section; {Right()}");
        }

        var sections = new Dictionary<string, TableSyntaxBase>(StringComparer.Ordinal);
        var cuffs = new List<TableSyntaxBase>();
        foreach (TableSyntaxBase table in document.Tables)
        {
            Sort(table, sections, cuffs, mistakes);
        }

        CalibrationTable Table(string name) => new(name, sections.GetValueOrDefault(name), mistakes);
        CalibrationTable head = Table(Calibration);
        CalibrationTable pressure = Table(Pressure);
        CalibrationTable[] measured = [.. cuffs.Select(c => new CalibrationTable(CalibrationKeys.Cuff, c, mistakes))];
        string title = head.Text(CalibrationKeys.Title);
        var calibration = new DetectorCalibration
        {
            TimeOfDayH = head.Number(CalibrationKeys.TimeOfDayH) ?? CalibrationKeys.TimeOfDayH.Default,
            Oxygen = ReadOxygen(Table(Oxygen)),
            Pressure = CurveReader.Read(pressure, measured, mistakes),
            Trend = ReadTrend(Table(Trend)),
        };
        Check(sections, measured, sections.Count + cuffs.Count == document.Tables.Count(), mistakes);
        mistakes.ThrowIfAny();
        SourceSpan? place = pressure.Has(CalibrationKeys.SlopeMmhgPerMs) ? pressure.PlaceOf(CalibrationKeys.SlopeMmhgPerMs)
            : measured.Length > 0 ? measured[^1].Place : null;
        var reference = new ReferencedFile(path, Sha256Sum.Of(bytes));
        return new CalibrationFile(reference, title, calibration, place?.Start.Line + 1 ?? 0, place?.Start.Column + 1 ?? 0);
    }

    private static void Sort(TableSyntaxBase table, Dictionary<string, TableSyntaxBase> sections, List<TableSyntaxBase> cuffs, MistakeList mistakes)
    {
        string name = TomlNames.Text(table.Name);
        bool isMany = table is TableArraySyntax;
        if (name == CalibrationKeys.Cuff && isMany)
        {
            cuffs.Add(table);
        }
        else if (name == CalibrationKeys.Cuff)
        {
            mistakes.Add(table.Name!.Span, "[cuff] may stand twice and has two brackets: [[cuff]]");
        }
        else if (!s_sections.Contains(name, StringComparer.Ordinal))
        {
            string nearest = NearestName.Find(name, s_sections.Append(CalibrationKeys.Cuff));
            string shown = nearest == CalibrationKeys.Cuff ? "[[cuff]]" : $"[{nearest}]";
            mistakes.Add(table.Name!.Span, $"[{TomlNames.Shown(name)}] is no section of a calibration; the nearest is {shown}");
        }
        else if (isMany)
        {
            mistakes.Add(table.Name!.Span, $"[[{name}]] is a list of sections; a section stands once: [{name}]");
        }
        else if (!sections.TryAdd(name, table))
        {
            mistakes.Add(table.Name!.Span, $"[{name}] stands twice, first in line {sections[name].Name!.Span.Start.Line + 1}; put its keys there");
        }
    }

    private static void Check(Dictionary<string, TableSyntaxBase> sections, CalibrationTable[] cuffs, bool isAllKnown, MistakeList mistakes)
    {
        if (cuffs.Length == 0)
        {
            foreach (string name in new[] { Pressure, Trend }.Where(sections.ContainsKey))
            {
                mistakes.Add(sections[name].Name!.Span, $"[{name}] needs a cuff measurement: add [[cuff]] with arrival_ms, systolic_mmhg and diastolic_mmhg");
            }

            if (isAllKnown && !sections.ContainsKey(Pressure) && !sections.ContainsKey(Trend) && !sections.ContainsKey(Oxygen))
            {
                mistakes.Add(null, $"nothing is calibrated here; {Right()}");
            }
        }
        else if (cuffs.Length > 2)
        {
            mistakes.Add(cuffs[2].Place, "[[cuff]] stands more than twice; one or two measurements make the curve");
        }
    }

    private static OxygenPair[]? ReadOxygen(CalibrationTable table)
    {
        if (!table.IsThere)
        {
            return null;
        }

        IReadOnlyList<double> ratios = table.List(CalibrationKeys.Ratio, 0.001);
        IReadOnlyList<double> percents = table.List(CalibrationKeys.SaturationPercent, -0.01);
        if (ratios.Count > 0 && percents.Count > 0 && ratios.Count != percents.Count)
        {
            table.Add(CalibrationKeys.SaturationPercent, FormattableString.Invariant(
                $"oxygen.saturation_percent has {percents.Count} numbers and oxygen.ratio {ratios.Count}; both must have as many"));
            return null;
        }

        return [.. ratios.Zip(percents, (r, s) => new OxygenPair(r, s))];
    }

    private static TrendSearch? ReadTrend(CalibrationTable table) => !table.IsThere ? null : new TrendSearch
    {
        FalseAlarmDays = table.Number(CalibrationKeys.FalseAlarmDays),
        LearningDays = table.Number(CalibrationKeys.LearningDays),
        SystolicMmhgPerBpm = table.Number(CalibrationKeys.TrendMmhgPerBpm),
        RestMarginBpm = table.Number(CalibrationKeys.RestMarginBpm),
    };

    private static string Right() => $"a calibration holds [{string.Join("], [", s_sections)}] and one or two [[cuff]]";
}
