// SPDX-License-Identifier: MIT
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Beats;

/// <summary>Reads the list of beats that a scenario holds or names, and attaches it to its key for the model.</summary>
internal static class BeatLists
{
    public static void Attach(ScenarioDraft draft, MistakeList mistakes)
    {
        TextKey inline = HeartKeys.Beats;
        TextKey inFile = HeartKeys.BeatsFile;
        if (draft.Given.IsSet(inline))
        {
            SourceSpan place = draft.Places[inline.Name];
            Attach(draft, inline, BeatListReader.ReadInline(
                draft.Given[inline],
                (offset, message) => mistakes.Add(place.Start.Line, place.Start.Column + 1 + offset, $"{inline.Name}: {message}")));
        }

        if (draft.Given.IsSet(inFile))
        {
            string path = draft.Given[inFile];
            if (BeatFile.Read(path, draft.File, m => mistakes.Add(draft.Places[inFile.Name], $"{inFile.Name} = \"{TomlNames.Shown(path)}\" {m}")) is BeatFile file)
            {
                Attach(draft, inFile, Beats(draft, file, mistakes));
                draft.ReferencedFiles.Add(file.Reference);
            }
        }
    }

    private static IReadOnlyList<(BeatClass Class, double RrSeconds)> Beats(ScenarioDraft draft, BeatFile file, MistakeList mistakes)
    {
        TextKey label = HeartKeys.BeatsLabel;
        bool hasLabel = draft.Given.IsSet(label);
        if (file.IsEdf)
        {
            return EdfBeatReader.Read(file.FullPath, hasLabel ? draft.Given[label] : null, label.Name, message => mistakes.AddIn(file.FullPath, 0, 0, message));
        }

        if (hasLabel)
        {
            mistakes.Add(draft.Places[label.Name], $"{label.Name} chooses annotations of an EDF+ or BDF+ file; a CSV file holds beats only, leave out {label.Name}");
        }

        return BeatListReader.ReadCsv(file.Text, (line, column, message) => mistakes.AddIn(file.FullPath, line, column, message));
    }

    private static void Attach(ScenarioDraft draft, TextKey key, IReadOnlyList<(BeatClass Class, double RrSeconds)> beats) =>
        draft.Given.Attach(key, beats.Select(b => new ScriptedBeat(b.Class, b.RrSeconds)).ToArray());
}
