// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.Tests.Streams;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Tests;

/// <summary>The scenarios that come with the project.</summary>
[TestFixture]
public sealed class ShippedScenarioTests
{
    private static IEnumerable<TestCaseData> Files() =>
        Repository.ShippedScenarios.Select(f => new TestCaseData(f).SetArgDisplayNames(Path.GetFileNameWithoutExtension(f)));

    [TestCaseSource(nameof(Files))]
    public void ReadFile_Shipped_ReadsAndIsCommented(string path)
    {
        Scenario scenario = ScenarioReader.ReadFile(path);

        Assert.That(scenario.Values.IsSet(ScenarioKeys.Title));
        Assert.That(scenario.Text, Does.StartWith("# "));

        // Where everything is on, what a detector makes of it is reported only.
        Assert.That(scenario.Requirements.Any(), Is.EqualTo(Path.GetFileNameWithoutExtension(path) != "all-on"));
    }

    [TestCase("rest-finger", 60)]
    [TestCase("rest-finger-10min", 600)]
    [TestCase("walking-wrist", 120)]
    [TestCase("noisy-room", 60)]
    public void ReadFile_Shipped_HasItsLengthAndSoundSamples(string name, double seconds)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(Repository.Root, "waveforms", "scenarios", name + ".toml"));

        Assert.That(scenario.DurationS, Is.EqualTo(seconds));
        StreamCheck.ReadAll(scenario.CreateStream());
    }

    [Test]
    public void ReadFile_RestFinger_RequiresWhatTheProjectPromises()
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(Repository.Root, "waveforms", "scenarios", "rest-finger.toml"));
        var limits = scenario.Requirements.ToDictionary(r => (r.Definition.Kind, r.Definition.Figure), r => r.Limit);

        Assert.That(limits, Is.EquivalentTo(new Dictionary<(MarkKind, RequiredFigure), double>
        {
            [(MarkKind.RPeak, RequiredFigure.Sensitivity)] = 1,
            [(MarkKind.RPeak, RequiredFigure.PositivePredictivity)] = 1,
            [(MarkKind.PulseFootTangent, RequiredFigure.Sensitivity)] = 1,
            [(MarkKind.PulseFootTangent, RequiredFigure.PositivePredictivity)] = 1,
            [(MarkKind.ArrivalTimeMs, RequiredFigure.ReadingBias)] = 3,
            [(MarkKind.ArrivalTimeMs, RequiredFigure.ReadingSd)] = 4,
        }));
    }

    [Test]
    public void WithSeed_Another_ChangesOnlyTheSeed()
    {
        Scenario scenario = ScenarioReader.ReadFile(Repository.ShippedScenarios[0]);
        Scenario other = scenario.WithSeed(99);

        Assert.That((other.Seed, scenario.Seed), Is.EqualTo((99UL, 1UL)));
        Assert.That(other.Values, Is.SameAs(scenario.Values));
        Assert.That(other.File, Is.EqualTo(scenario.File));
    }
}
