// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Reads one <c>[[detector]]</c>.</summary>
internal static class StudyDetectorReader
{
    /// <summary>The detector, as far as it is sound.</summary>
    /// <param name="table">The table.</param>
    /// <param name="constants">Its table of constants below; null: none.</param>
    /// <param name="isAlone">Whether it is the only one.</param>
    public static StudyDetector Read(KeyTable table, TableSyntaxBase? constants, bool isAlone)
    {
        if (!isAlone)
        {
            table.Require(DetectorKeys.Label, ", as there are several detectors");
        }

        string label = table.Text(DetectorKeys.Label);
        string adapter = table.Word(DetectorKeys.Adapter);
        bool isInProcess = table.Flag(DetectorKeys.InProcess);
        if (adapter is DetectorKeys.Assembly or DetectorKeys.CLibrary)
        {
            table.Require(DetectorKeys.File, $" for adapter = \"{adapter}\"");
            table.Refuse(DetectorKeys.Calibration, "the adapters library and process");
        }
        else
        {
            table.Refuse(DetectorKeys.File, "the adapters assembly and c_library");
        }

        IReadOnlyList<string> command = Command(table, adapter);

        if (adapter != DetectorKeys.Assembly)
        {
            table.Refuse(DetectorKeys.Class, "the adapter assembly");
        }

        if (adapter != DetectorKeys.CLibrary)
        {
            table.Refuse(DetectorKeys.InProcess, "the adapter c_library");
        }

        // What runs in this process cannot be stopped.
        if (adapter is DetectorKeys.Library or DetectorKeys.Assembly || isInProcess)
        {
            table.Refuse(DetectorKeys.HangS, "the adapter c_library in a process of its own and the adapter process");
        }

        bool isClosed = table.Flag(DetectorKeys.ClosedLoop);
        if (!isClosed)
        {
            table.Refuse(DetectorKeys.Control, "a closed loop (closed_loop = true)");
            table.Refuse(DetectorKeys.LatencyMs, "a closed loop (closed_loop = true)");
        }

        return new StudyDetector
        {
            Label = label.Length > 0 ? label : adapter == DetectorKeys.Library ? DetectorKeys.Ours : NameOf(table, command),
            Adapter = adapter,
            File = table.Text(DetectorKeys.File),
            Command = command,
            ClassName = table.Text(DetectorKeys.Class),
            IsInProcess = isInProcess,
            HangS = table.Number(DetectorKeys.HangS),
            Calibration = table.Text(DetectorKeys.Calibration),
            Control = table.Text(DetectorKeys.Control),
            IsLoopClosed = isClosed,
            LatencyMs = (int)table.Number(DetectorKeys.LatencyMs),
            Constants = Constants(table, constants),
        };
    }

    // Of python3 detector.py the second word says more; the last word without a dash in front is as good a guess as any.
    private static string NameOf(KeyTable table, IReadOnlyList<string> command) =>
        Path.GetFileNameWithoutExtension(command.LastOrDefault(w => !w.StartsWith('-')) ?? table.Text(DetectorKeys.File));

    private static List<string> Command(KeyTable table, string adapter)
    {
        if (adapter != DetectorKeys.Process)
        {
            table.Refuse(DetectorKeys.Command, "the adapter process");
            return [];
        }

        table.Require(DetectorKeys.Command, $" for adapter = \"{adapter}\"");
        var words = new List<string>();
        if (table.Value(DetectorKeys.Command) is not ValueSyntax given)
        {
            return words;
        }

        foreach (ArrayItemSyntax item in given is ArraySyntax array ? array.Items : Enumerable.Empty<ArrayItemSyntax>())
        {
            if (item.Value is StringValueSyntax { Value: string word } && !word.Any(char.IsControl) && (word.Length > 0 || words.Count > 0))
            {
                words.Add(word);
            }
            else
            {
                table.Add(item.Value!.Span, $"{DetectorKeys.Command.Name} has {ValueReader.Shown(item.Value)}; each word must be text on one line, the first one not empty");
            }
        }

        if (words.Count == 0)
        {
            table.Add(given.Span, $"{DetectorKeys.Command.Name} = {ValueReader.Shown(given)} must be {DetectorKeys.Command.Allowed}");
        }

        return words;
    }

    private static SortedDictionary<string, double> Constants(KeyTable table, TableSyntaxBase? below)
    {
        var constants = new SortedDictionary<string, double>(StringComparer.Ordinal);
        switch (table.Value(DetectorKeys.Constants))
        {
            case null:
                break;
            case InlineTableSyntax inline:
                Take(table, inline.Items.Select(i => i.KeyValue!), constants);
                break;
            case ValueSyntax other:
                table.Add(other.Span, $"detector.constants = {ValueReader.Shown(other)} must be {DetectorKeys.Constants.Allowed}");
                break;
        }

        if (below is not null)
        {
            Take(table, below.Items, constants);
        }

        return constants;
    }

    private static void Take(KeyTable table, IEnumerable<KeyValueSyntax> pairs, SortedDictionary<string, double> constants)
    {
        foreach (KeyValueSyntax pair in pairs)
        {
            string written = TomlNames.Text(pair.Key);
            string name = VariedKey.IsConstant(written) ? written : $"detector.{written}";
            if (ValueReader.Number(VaryReader.Constant(name), name, pair.Value!, m => table.Add(pair.Value!.Span, m)) is not double value)
            {
                continue;
            }

            if (!constants.TryAdd(name, value))
            {
                table.Add(pair.Key!.Span, $"{TomlNames.Shown(name)} stands twice among the constants of the detector; keep one");
            }

            table.Keep(StudyFile.ConstantPlace(name), pair.Value!.Span);
        }
    }
}
