// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.Tests.Streams;

namespace SensorSim.Scenarios.Tests.Sensors;

/// <summary>The sensor files that come with the project.</summary>
[TestFixture]
public sealed class ShippedSensorTests
{
    private static IEnumerable<TestCaseData> Files() => Directory.GetFiles(Path.Combine(Repository.Root, "waveforms", "sensors"), "*.toml")
        .Order(StringComparer.Ordinal).Select(f => new TestCaseData(f).SetArgDisplayNames(Path.GetFileNameWithoutExtension(f)));

    [TestCaseSource(nameof(Files))]
    public void ReadFile_Shipped_ReadsHasATitleAndIsCommented(string path)
    {
        Scenario scenario = ScenarioReader.ReadText("", "a.toml", SensorReader.ReadFile(path));

        Assert.That(scenario.SensorTitle, Is.Not.Empty.And.Not.EqualTo(Path.GetFileNameWithoutExtension(path)));
        Assert.That(File.ReadAllText(path), Does.StartWith("# "));
    }

    // Alone, and under a scenario that moves in a lit room: sound samples either way.
    [TestCaseSource(nameof(Files))]
    public void CreateStream_Shipped_GivesSoundSamples(string path)
    {
        SensorFile sensor = SensorReader.ReadFile(path);
        foreach (string text in new[] { "", "[movement]\nactivity = \"walking\"\n[optics]\nmovement_artefact_ratio = 2\n[ambient]\nlevel_lux = 400\nhand_per_min = 10\n" })
        {
            StreamCheck.ReadAll(ScenarioReader.ReadText("[scenario]\nduration_s = 10\n" + text, "a.toml", sensor).CreateStream());
        }
    }

    [Test]
    public void Files_Shipped_AreTheFourThatTheDocsName() => Assert.That(
        Files().Select(f => Path.GetFileNameWithoutExtension((string)f.Arguments[0]!)),
        Is.EqualTo(new[] { "chest-patch", "finger-clip", "ideal", "wrist-watch" }));
}
