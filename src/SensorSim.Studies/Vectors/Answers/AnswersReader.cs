// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Studies.Vectors.Answers;

/// <summary>Reads the answers of a device or of another implementation to the cases of a set.</summary>
public static class AnswersReader
{
    /// <summary>Most answers of a file, or of a folder.</summary>
    public const long MostRows = 20_000_000;

    private const string Detections = "detections.csv";
    private const string Csv = ".csv";

    /// <summary>
    /// Reads one file with a column <c>case</c>, one file without it for a set of one case, or a folder with <c>CASE/detections.csv</c> or <c>CASE.csv</c>.
    /// </summary>
    /// <param name="path">Path of the file or folder.</param>
    /// <param name="cases">Names of the cases of the set.</param>
    /// <returns>The answers by case; a case of which nothing is said is not there.</returns>
    /// <exception cref="InputFileException">The answers are not what they should be.</exception>
    public static IReadOnlyDictionary<string, CaseFile> Read(string path, IReadOnlyList<string> cases)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(cases);
        return Directory.Exists(path) ? ReadFolder(path, cases) : ReadFile(path, cases);
    }

    private static Dictionary<string, CaseFile> ReadFolder(string folder, IReadOnlyList<string> cases)
    {
        var found = new Dictionary<string, CaseFile>(StringComparer.Ordinal);
        long count = 0;
        foreach ((string name, string file) in Files(folder))
        {
            if (!cases.Contains(name, StringComparer.Ordinal))
            {
                throw new InputFileException(file, 0, 0, $"{name} is no case of the set; the nearest is {NearestName.Find(name, cases)}.");
            }

            if (found.TryGetValue(name, out CaseFile? other))
            {
                throw new InputFileException(file, 0, 0, $"{other.From} holds answers to the case {name} as well; keep one of the two.");
            }

            using var reader = new AnswerCsvReader(file);
            var rows = new List<AnswerRow>();
            while (reader.TryRead(out AnswerRow row))
            {
                if (reader.HasCases && row.CaseName != name)
                {
                    throw new InputFileException(file, reader.Line, 0, $"an answer to the case {row.CaseName} stands in the file of {name}; leave the column case out, or give one file for all.");
                }

                Count(file, ref count);
                rows.Add(row);
            }

            found.Add(name, new CaseFile(file, reader.Columns, rows));
        }

        return found.Count > 0 ? found
            : throw new InputFileException(folder, 0, 0, $"holds no answers; put them into CASE/{Detections} or CASE{Csv}, for example {cases[0]}{Csv}.");
    }

    private static IEnumerable<(string Name, string File)> Files(string folder)
    {
        foreach (string file in Directory.GetFiles(folder, "*" + Csv).Order(StringComparer.Ordinal))
        {
            yield return (Path.GetFileNameWithoutExtension(file), file);
        }

        foreach (string below in Directory.GetDirectories(folder).Order(StringComparer.Ordinal))
        {
            string file = Path.Combine(below, Detections);
            if (File.Exists(file))
            {
                yield return (Path.GetFileName(below), file);
            }
        }
    }

    private static Dictionary<string, CaseFile> ReadFile(string path, IReadOnlyList<string> cases)
    {
        using var reader = new AnswerCsvReader(path);
        if (!reader.HasCases && cases.Count > 1)
        {
            throw new InputFileException(path, 1, 0, $"does not say which of the {cases.Count} cases each answer belongs to; add a column case, or give a folder with CASE{Csv} for each.");
        }

        var rows = new Dictionary<string, List<AnswerRow>>(StringComparer.Ordinal);
        long count = 0;
        while (reader.TryRead(out AnswerRow row))
        {
            string name = reader.HasCases ? row.CaseName : cases[0];
            if (!rows.TryGetValue(name, out List<AnswerRow>? list))
            {
                if (!cases.Contains(name, StringComparer.Ordinal))
                {
                    throw new InputFileException(path, reader.Line, 0, $"{Shown(name)} is no case of the set; the nearest is {NearestName.Find(name, cases)}.");
                }

                list = [];
                rows.Add(name, list);
            }

            Count(path, ref count);
            list.Add(row);
        }

        if (!reader.HasCases)
        {
            rows.TryAdd(cases[0], []);
        }

        return rows.ToDictionary(r => r.Key, r => new CaseFile(path, reader.Columns, r.Value), StringComparer.Ordinal);
    }

    private static string Shown(string name) => name.Length == 0 ? "an empty name" : name;

    private static void Count(string file, ref long count)
    {
        if (++count > MostRows)
        {
            throw new InputFileException(file, 0, 0, string.Create(CultureInfo.InvariantCulture, $"more than {MostRows} answers; that is no set of cases, give those of the set alone."));
        }
    }
}
