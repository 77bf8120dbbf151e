// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Reads a study from TOML and reports every mistake with its place.</summary>
public static class StudyFileReader
{
    private const int LargestBytes = 1 << 20;

    /// <summary>Reads a file.</summary>
    /// <param name="path">Its path.</param>
    /// <exception cref="ScenarioException">The file is missing, unreadable or holds mistakes.</exception>
    public static StudyFile ReadFile(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string wrong = "";
        byte[]? bytes = SmallFile.Read(path, LargestBytes, "1 MiB, and a study is a page of text", "there is no such file", m => wrong = m);
        return bytes is not null
            ? ReadText(SmallFile.Text(bytes), path)
            : throw new ScenarioException([new ScenarioMistake(path.Length == 0 ? "study" : path, 0, 0, $"{wrong}; give the path of a study (TOML)")]);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">The TOML text.</param>
    /// <param name="file">Name of its file, for messages.</param>
    /// <exception cref="ScenarioException">The text holds mistakes.</exception>
    public static StudyFile ReadText(string text, string file)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(file);
        var mistakes = new MistakeList(file);
        var tables = new StudyTables(TomlText.Parse(text, file, mistakes), mistakes);
        KeyTable study = tables.Single(StudySectionKeys.Section);
        if (!study.IsThere && tables.IsAllKnown)
        {
            mistakes.Add(null, "[study] is missing; a study begins with [study] and scenario = \"path of a scenario\"");
        }

        string scenario = study.Text(StudySectionKeys.Scenario);
        if (study.IsThere)
        {
            study.Require(StudySectionKeys.Scenario);
        }

        string title = study.Text(StudySectionKeys.Title);
        string arrangement = study.Word(StudySectionKeys.Arrangement);
        bool isHypercube = arrangement == StudySectionKeys.LatinHypercube;
        CheckArrangement(study, isHypercube);
        IReadOnlyList<ulong> seeds = SeedReader.Read(study, StudySectionKeys.FirstSeed, StudySectionKeys.SeedCount, StudySectionKeys.Seeds);
        IReadOnlyList<VariedKey> varied = ReadVaried(tables, study, isHypercube, mistakes);
        if (isHypercube && tables.Many(VaryKeys.Section).Count == 0)
        {
            study.Add(StudySectionKeys.Arrangement, "study.arrangement = \"latin_hypercube\" needs a [[vary]]; there is nothing to arrange");
        }

        var result = new StudyFile(tables.Places)
        {
            File = file,
            Text = text,
            Title = title.Length > 0 ? title : Path.GetFileNameWithoutExtension(file),
            ScenarioPath = scenario,
            DurationS = study.Given(StudySectionKeys.DurationS),
            Seeds = seeds,
            SubjectSeeds = ReadSubjects(study),
            Arrangement = arrangement,
            PointCount = isHypercube ? (int)study.Number(StudySectionKeys.PointCount) : 0,
            ArrangementSeed = (ulong)study.Number(StudySectionKeys.ArrangementSeed),
            Varied = varied,
            Detectors = ReadDetectors(tables),
            Requirements = ReadRequirements(tables.Single(StudyKeys.RequirementsSection)),
            FailurePoint = FailurePointReader.Read(tables.Single(FailurePointKeys.Section), varied),
            TuningSeeds = ReadTuning(tables.Single(TuningKeys.Section), seeds, varied, arrangement),
        };
        mistakes.ThrowIfAny();
        return result;
    }

    private static void CheckArrangement(KeyTable study, bool isHypercube)
    {
        if (isHypercube)
        {
            study.Require(StudySectionKeys.PointCount, " for arrangement = \"latin_hypercube\"");
            return;
        }

        study.Refuse(StudySectionKeys.PointCount, "arrangement = \"latin_hypercube\"");
        study.Refuse(StudySectionKeys.ArrangementSeed, "arrangement = \"latin_hypercube\"");
    }

    private static IReadOnlyList<ulong> ReadSubjects(KeyTable study)
    {
        if (study.Has(StudySectionKeys.SubjectCount) || study.Has(StudySectionKeys.SubjectSeeds))
        {
            return SeedReader.Read(study, StudySectionKeys.FirstSubjectSeed, StudySectionKeys.SubjectCount, StudySectionKeys.SubjectSeeds);
        }

        study.Refuse(StudySectionKeys.FirstSubjectSeed, "study.subject_count");
        return [];
    }

    private static List<VariedKey> ReadVaried(StudyTables tables, KeyTable study, bool isHypercube, MistakeList mistakes)
    {
        var varied = new List<VariedKey>();
        var first = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (KeyTable table in tables.Many(VaryKeys.Section))
        {
            if (VaryReader.Read(table, isHypercube) is not VariedKey one)
            {
                continue;
            }

            SourceSpan place = table.Value(VaryKeys.Key)!.Span;
            if (!first.TryAdd(one.Key.Name, place.Start.Line + 1))
            {
                mistakes.Add(place, $"{one.Key.Name} is varied twice, first in line {first[one.Key.Name]}; keep one");
            }
            else if (one.Key == ScenarioKeys.DurationS && study.Has(StudySectionKeys.DurationS))
            {
                mistakes.Add(place, $"{one.Key.Name} is varied, and study.duration_s sets it for all; keep one");
            }

            varied.Add(one);
        }

        return varied;
    }

    private static List<StudyDetector> ReadDetectors(StudyTables tables)
    {
        IReadOnlyList<KeyTable> given = tables.Many(DetectorKeys.Section);
        if (given.Count == 0)
        {
            return [new StudyDetector { Label = DetectorKeys.Ours }];
        }

        var detectors = new List<StudyDetector>();
        for (int i = 0; i < given.Count; i++)
        {
            StudyDetector detector = StudyDetectorReader.Read(given[i], tables.ConstantsOf(i), given.Count == 1);
            int first = detectors.FindIndex(d => d.Label == detector.Label);
            if (first >= 0 && given[i].Has(DetectorKeys.Label) && given[first].Has(DetectorKeys.Label))
            {
                int line = given[first].PlaceOf(DetectorKeys.Label)!.Value.Start.Line + 1;
                given[i].Add(DetectorKeys.Label, $"detector.label = \"{detector.Label}\" stands twice, first in line {line}; each detector has a label of its own");
            }

            detectors.Add(detector);
        }

        return detectors;
    }

    private static List<(RequirementDefinition Definition, double Limit)> ReadRequirements(KeyTable table)
    {
        var found = new List<(RequirementDefinition Definition, double Limit, SourceSpan Place)>();
        foreach (RequirementDefinition definition in RequirementKeys.All)
        {
            if (table.Given(definition.Key) is double limit)
            {
                found.Add((definition, limit, table.PlaceOf(definition.Key)!.Value));
            }
        }

        return [.. found.OrderBy(f => f.Place.Start.Line).ThenBy(f => f.Place.Start.Column).Select(f => (f.Definition, f.Limit))];
    }

    private static IReadOnlyList<ulong> ReadTuning(KeyTable table, IReadOnlyList<ulong> seeds, IReadOnlyList<VariedKey> varied, string arrangement)
    {
        if (!table.IsThere)
        {
            return [];
        }

        IReadOnlyList<ulong> tuning = SeedReader.Read(table, TuningKeys.FirstSeed, TuningKeys.SeedCount, TuningKeys.Seeds);
        ulong[] both = [.. tuning.Intersect(seeds).Take(1)];
        if (both.Length > 0)
        {
            string key = table.Has(TuningKeys.Seeds) ? TuningKeys.Seeds.Name : TuningKeys.FirstSeed.Name;
            table.Add(
                table.Has(TuningKeys.Seeds) ? table.PlaceOf(TuningKeys.Seeds) : table.PlaceOf(TuningKeys.FirstSeed),
                FormattableString.Invariant($"{key}: seed {both[0]} is one of [study] as well; constants are scored on seeds that they were not chosen on, take others"));
        }

        if (!varied.Any(v => v.IsOfDetector))
        {
            table.Add(table.Place, "[tuning] has nothing to choose; vary a constant of the detector: [[vary]] with key = \"detector.…\"");
        }
        else if (arrangement != StudySectionKeys.Grid && varied.Any(v => !v.IsOfDetector))
        {
            table.Add(table.Place, $"[tuning] with keys of the scenario needs study.arrangement = \"grid\", so that all constants meet the same; it is \"{arrangement}\"");
        }

        return tuning;
    }
}
