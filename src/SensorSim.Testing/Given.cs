// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Testing;

/// <summary>Begins what a detector is tested on.</summary>
public static class Given
{
    /// <summary>A scenario in a file, with the seed that it says.</summary>
    /// <param name="path">Path of the TOML file; see <see cref="TestFile"/>.</param>
    /// <exception cref="SensorSim.Scenarios.Reading.ScenarioException">It holds mistakes; the message names each with line and column.</exception>
    /// <exception cref="FileNotFoundException">There is none.</exception>
    public static GivenScenario Scenario(string path)
    {
        string full = TestFile.Find(path);
        return new GivenScenario(ScenarioReader.ReadFile(full), path, isInFile: true);
    }

    /// <summary>A scenario that stands in the test itself.</summary>
    /// <param name="toml">The TOML text.</param>
    /// <param name="name">What messages call it; files that it names are looked for from the folder of the tests on.</param>
    /// <exception cref="SensorSim.Scenarios.Reading.ScenarioException">It holds mistakes; the message names each with line and column.</exception>
    public static GivenScenario ScenarioText(string toml, string name = "scenario") =>
        new(ScenarioReader.ReadText(toml, Path.Combine(AppContext.BaseDirectory, name)), name, isInFile: false);

    /// <summary>The cases of a set of known answers, each with all its requirements, in the order of its plan.</summary>
    /// <param name="folder">Folder of the set; see <see cref="TestFile"/>. The sum of every file in it is checked first.</param>
    /// <exception cref="FormatException">It is no set, or a file of it is damaged, missing or too many; the message names it.</exception>
    /// <exception cref="FileNotFoundException">There is no such folder.</exception>
    public static IReadOnlyList<VectorCase> VectorSet(string folder)
    {
        string full = TestFile.Find(folder);
        return [.. Studies.Vectors.Sets.VectorSet.Open(full).Cases.Select(c => new VectorCase(full, c, c.Planned.Requirements))];
    }
}
