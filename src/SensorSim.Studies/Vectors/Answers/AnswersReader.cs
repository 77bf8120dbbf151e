// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Studies.Vectors.Answers;

/// <summary>Reads the answers of a device or of another implementation to the cases of a set.</summary>
public static class AnswersReader
{
    /// <summary>Most answers of a file, or of a folder: some hundred bytes of memory each.</summary>
    public const long MostRows = 2_000_000;

    private const double MostPerS = 200;
    private const long MostBesides = 1000;

    private const string Detections = "detections.csv";
    private const string Csv = ".csv";

    /// <summary>
    /// Reads one file with a column <c>case</c>, one file without it for a set of one case, or a folder with <c>CASE/detections.csv</c> or <c>CASE.csv</c>.
    /// </summary>
    /// <param name="path">Path of the file or folder.</param>
    /// <param name="cases">Names of the cases of the set.</param>
    /// <param name="mostRows">Most answers in all; more are refused.</param>
    /// <returns>The answers by case; a case of which nothing is said is not there.</returns>
    /// <exception cref="InputFileException">The answers are not what they should be.</exception>
    public static IReadOnlyDictionary<string, CaseFile> Read(string path, IReadOnlyList<string> cases, long mostRows = MostRows)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(cases);
        return Directory.Exists(path) ? ReadFolder(path, cases, mostRows) : ReadFile(path, cases, mostRows);
    }

    /// <summary>How many answers can be answers to cases: every kind of every channel at every beat of a fast heart, and some more.</summary>
    /// <param name="seconds">Length of each case [s].</param>
    public static long Most(IEnumerable<double> seconds)
    {
        ArgumentNullException.ThrowIfNull(seconds);
        return (long)Math.Min(MostRows, seconds.Sum(s => MostBesides + (MostPerS * s)));
    }

    private static Dictionary<string, CaseFile> ReadFolder(string folder, IReadOnlyList<string> cases, long mostRows)
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

                Count(file, ref count, mostRows);
                if (!row.IsNothing)
                {
                    rows.Add(row);
                }
            }

            found.Add(name, new CaseFile(file, reader.Columns, rows) { Sha256 = SetFolder.Sha256Of(file) });
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

    private static Dictionary<string, CaseFile> ReadFile(string path, IReadOnlyList<string> cases, long mostRows)
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

            Count(path, ref count, mostRows);
            if (!row.IsNothing)
            {
                list.Add(row);
            }
        }

        if (!reader.HasCases)
        {
            rows.TryAdd(cases[0], []);
        }

        string sum = SetFolder.Sha256Of(path);
        return rows.ToDictionary(r => r.Key, r => new CaseFile(path, reader.Columns, r.Value) { Sha256 = sum }, StringComparer.Ordinal);
    }

    private static string Shown(string name) => name.Length == 0 ? "an empty name" : name;

    private static void Count(string file, ref long count, long mostRows)
    {
        if (++count > mostRows)
        {
            throw new InputFileException(file, 0, 0, string.Create(CultureInfo.InvariantCulture, $"more than {mostRows} answers, which is more than a detector can give to the cases of the set; give the answers to these alone."));
        }
    }
}
