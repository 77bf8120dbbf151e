// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Plans;

/// <summary>Reads a study from TOML.</summary>
public static class PlanReader
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="Scenarios.Reading.ScenarioException">The file is missing, unreadable or holds mistakes.</exception>
    public static StudyPlan ReadFile(string path) => throw new NotSupportedException($"{path}: studies cannot be read yet.");
}
