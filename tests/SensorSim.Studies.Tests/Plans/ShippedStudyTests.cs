// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>The examples can be read and begun.</summary>
[TestFixture]
public sealed class ShippedStudyTests
{
    private static string Folder { get; } = Path.Combine(Root(), "waveforms", "studies");

    private static IEnumerable<string> Names => Directory.GetFiles(Folder, "*.toml").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal);

    [TestCaseSource(nameof(Names))]
    public void Shipped_Study_IsReadAndItsEndsRun(string name)
    {
        StudyPlan plan = PlanReader.ReadFile(Path.Combine(Folder, name));
        Assert.That(plan.Text, Does.StartWith("# ").And.Contain("?"), "it says what it asks");
        Assert.That(plan.Text, Does.Not.Contain("\r"));
        Assert.That((plan.Requirements.Count, plan.Factors.Count), Is.GreaterThan((0, 0)));
        IDetectorFactory[] factories = [.. plan.Detectors.Select(DetectorFactories.Open)];
        StudyPlan known = PlanReader.CheckConstants(plan, factories);
        Assert.That(StudyIdentity.Of(known, factories).OfAll, Does.Match("^[0-9a-f]{64}$"));

        using var maker = new RunMaker(known, factories);
        foreach (long run in new[] { 0, known.RunCount - 1 })
        {
            RunRow row = maker.Make(run);
            Assert.That((row.Run, row.Verdict), Is.EqualTo((run, Verdict.Answered)), row.VerdictReason);
        }
    }

    [Test]
    public void Shipped_MuscleNoise_IsNineLevelsAndTwoHundredSeeds()
    {
        StudyPlan plan = PlanReader.ReadFile(Path.Combine(Folder, "muscle-noise.toml"));

        Assert.That(plan.Points.Select(p => p.Values[0]), Is.EqualTo(new object[] { 12.0, 10.0, 8.0, 6.0, 4.0, 2.0, 0.0, -2.0, -4.0 }));
        Assert.That((plan.RunCount, plan.Scenario.DurationS), Is.EqualTo((1800L, 60.0)));
        Assert.That(plan.Requirements.Select(r => (r.Definition.Key.Key, r.Limit)), Is.EqualTo(new[]
        {
            ("r_peak_sensitivity_min", 0.99), ("r_peak_positive_predictivity_min", 0.99),
        }));
    }

    private static string Root()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "SensorSim.sln")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("The tests do not run inside the source tree.");
    }
}
