// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using System.Text;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Beats;

/// <summary>Reads the lists of beats that a scenario holds or names, and attaches them to their keys for the model.</summary>
internal static class BeatLists
{
    private const string Inline = "heart.beats";
    private const string InFile = "heart.beats_file";

    // A day has about 100,000 beats, a line about 10 bytes: four days.
    private const int LargestBytes = 1 << 22;

    public static void Attach(ScenarioDraft draft, MistakeList mistakes)
    {
        bool isInline = AllKeys.Find(Inline) is TextKey inline && draft.Given.IsSet(inline);
        bool isInFile = AllKeys.Find(InFile) is TextKey file && draft.Given.IsSet(file);
        if (isInline && isInFile)
        {
            mistakes.Add(draft.Places[InFile], $"{InFile} and {Inline} of line {draft.Places[Inline].Start.Line + 1} both give the beats; keep one");
        }
        else if (isInline)
        {
            AttachInline(draft, (TextKey)AllKeys.Find(Inline)!, mistakes);
        }
        else if (isInFile)
        {
            AttachFile(draft, (TextKey)AllKeys.Find(InFile)!, mistakes);
        }
    }

    /// <summary>Reads the list that stands in the scenario.</summary>
    internal static void AttachInline(ScenarioDraft draft, TextKey key, MistakeList mistakes)
    {
        SourceSpan place = draft.Places[key.Name];
        IReadOnlyList<(BeatClass Class, double RrSeconds)> beats = BeatListReader.ReadInline(
            draft.Given[key],
            (offset, message) => mistakes.Add(place.Start.Line, place.Start.Column + 1 + offset, $"{key.Name}: {message}"));
        draft.Given.Attach(key, beats);
    }

    /// <summary>Reads the list that stands in a file beside the scenario.</summary>
    internal static void AttachFile(ScenarioDraft draft, TextKey key, MistakeList mistakes)
    {
        string path = draft.Given[key];
        string found = Path.Combine(Path.GetDirectoryName(draft.File) ?? "", path);
        if (Bytes(found, m => mistakes.Add(draft.Places[key.Name], $"{key.Name} = \"{TomlNames.Shown(path)}\" {m}")) is not byte[] bytes)
        {
            return;
        }

        using var reader = new StreamReader(new MemoryStream(bytes), new UTF8Encoding(false));
        draft.Given.Attach(key, BeatListReader.ReadCsv(reader.ReadToEnd(), (line, column, message) => mistakes.AddIn(found, line, column, message)));
        draft.ReferencedFiles.Add(new ReferencedFile(path, Convert.ToHexStringLower(SHA256.HashData(bytes))));
    }

    private static byte[]? Bytes(string path, Action<string> report)
    {
        const string Right = "give the path of a CSV file with the column rr_ms, from the scenario's folder on";
        try
        {
            if (Directory.Exists(path))
            {
                report($"is a folder; {Right}");
                return null;
            }

            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            var bytes = new byte[LargestBytes + 1];
            int count = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (count > LargestBytes)
            {
                report($"is larger than 4 MiB; {Right}");
                return null;
            }

            return bytes[..count];
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or ArgumentException)
        {
            report($"is no file; {Right}");
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            report($"cannot be read: {TomlNames.FirstLine(e.Message)}; {Right}");
            return null;
        }
    }
}
