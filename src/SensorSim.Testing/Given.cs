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
}
