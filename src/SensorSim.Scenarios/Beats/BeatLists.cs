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
    private const string Inline = "heart.beats";
    private const string InFile = "heart.beats_file";

    public static void Attach(ScenarioDraft draft, MistakeList mistakes)
    {
        TextKey? inline = AllKeys.Find(Inline) as TextKey;
        TextKey? inFile = AllKeys.Find(InFile) as TextKey;
        bool isInline = inline is not null && draft.Given.IsSet(inline);
        bool isInFile = inFile is not null && draft.Given.IsSet(inFile);
        if (isInline)
        {
            SourceSpan place = draft.Places[Inline];
            Attach(draft, inline!, BeatListReader.ReadInline(
                draft.Given[inline!],
                (offset, message) => mistakes.Add(place.Start.Line, place.Start.Column + 1 + offset, $"{Inline}: {message}")));
        }

        if (isInFile)
        {
            string path = draft.Given[inFile!];
            if (BeatFile.Read(path, draft.File, m => mistakes.Add(draft.Places[InFile], $"{InFile} = \"{TomlNames.Shown(path)}\" {m}")) is BeatFile file)
            {
                Attach(draft, inFile!, BeatListReader.ReadCsv(file.Text, (line, column, message) => mistakes.AddIn(file.FullPath, line, column, message)));
                draft.ReferencedFiles.Add(file.Reference);
            }
        }
    }

    private static void Attach(ScenarioDraft draft, TextKey key, IReadOnlyList<(BeatClass Class, double RrSeconds)> beats) =>
        draft.Given.Attach(key, beats.Select(b => new ScriptedBeat(b.Class, b.RrSeconds)).ToArray());
}
