// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Identity;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Reads a vector plan from TOML and reports every mistake with its place.</summary>
public static class VectorPlanReader
{
    private const int LargestBytes = 1 << 20;

    /// <summary>Reads a file, and every scenario and calibration that it names.</summary>
    /// <param name="path">Its path.</param>
    /// <exception cref="ScenarioException">The file, or one that it names, is missing, unreadable or holds mistakes.</exception>
    public static VectorPlan ReadFile(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string wrong = "";
        byte[]? bytes = SmallFile.Read(path, LargestBytes, "1 MiB, and a plan is a few pages of text", "there is no such file", m => wrong = m);
        return bytes is not null
            ? Read(bytes, path)
            : throw new ScenarioException([new ScenarioMistake(path.Length == 0 ? "plan" : path, 0, 0, $"{wrong}; give the path of a vector plan (TOML)")]);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">The TOML text.</param>
    /// <param name="file">Name of its file, for messages and for files that it names.</param>
    /// <exception cref="ScenarioException">The text, or a file that it names, holds mistakes.</exception>
    public static VectorPlan ReadText(string text, string file)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(file);
        return Read(System.Text.Encoding.UTF8.GetBytes(text), file);
    }

    private static VectorPlan Read(byte[] bytes, string file)
    {
        string text = SmallFile.Text(bytes);
        var mistakes = new MistakeList(file);
        var tables = new PlanTables(TomlText.Parse(text, file, mistakes), mistakes);
        KeyTable set = tables.Set;
        if (!set.IsThere && tables.IsAllKnown)
        {
            mistakes.Add(null, "[set] is missing; a vector plan begins with [set] and title = \"what the set is\"");
        }
        else if (set.IsThere)
        {
            set.Require(PlanSetKeys.Title);
        }

        IReadOnlyList<PlannedRequirement> requirements = PlanRequirementReader.Read(tables.Requirements);
        if (tables.Cases.Count == 0 && tables.IsAllKnown)
        {
            mistakes.Add(null, "[[case]] is missing; a vector plan has at least one");
        }

        IReadOnlyList<PlannedCase> cases = PlanCaseReader.Read(tables.Cases, requirements, Path.GetDirectoryName(file) ?? "", mistakes);
        var plan = new VectorPlan
        {
            File = file,
            FullPath = Path.GetFullPath(file),
            Text = text,
            Bytes = bytes,
            Hash = Sha256Sum.Of(bytes),
            Title = set.Text(PlanSetKeys.Title),
            About = set.Text(PlanSetKeys.About),
            Attached = AttachedReader.Read(set, cases),
            Requirements = requirements,
            Cases = cases,
        };
        mistakes.ThrowIfAny();
        return plan;
    }
}
