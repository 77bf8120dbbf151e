// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using System.Xml.Linq;
using SensorSim.Detectors.Choices;
using SensorSim.Reports.StudyReports;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.WorstCases;

namespace SensorSim.Reports.Tests.StudyReports;

public class WorstFiguresTests
{
    [Test]
    public void Write_WorstCases_ShowsSignalsWithWhatWasMissed()
    {
        StudyPlan plan = StudySamples.Grid(2, ["ours"], StudySamples.Factor(StudySamples.MuscleKey, -6.0));
        using var factory = new LibraryFactory();
        using var maker = new RunMaker(plan, [factory]);
        StudyResults results = new(plan, [maker.Make(0), maker.Make(1)]);
        IReadOnlyList<WorstCase> cases = WorstCaseFinder.Find(results, [factory], 2);
        Assert.That(cases, Has.Count.EqualTo(2));
        using var report = new WrittenReport(results, [], new StudyReportOptions { WorstCases = cases });

        Assert.That(report.Column("worst_cases", "run"), Is.EqualTo(cases.Select(c => $"{c.Run}")));
        Assert.That(report.Column("worst_cases", "seed"), Is.EqualTo(cases.Select(c => $"{c.Key.Seed + 1}")));
        XElement[] figures = [.. report.Page.Descendants("figure").Where(f => f.Attribute("id")!.Value.StartsWith("worst_case", StringComparison.Ordinal))];
        Assert.That(figures, Has.Length.EqualTo(2));
        string[] texts = [.. figures[0].Descendants("text").Select(t => t.Value)];
        Assert.That(texts, Has.Member("missed").And.Member("ecg (mV)").And.Member("time (s)").And.Some.StartsWith("Run "));
        Assert.That(texts, Has.None.StartsWith("dark").And.None.StartsWith("accel").And.None.StartsWith("infrared").And.None.StartsWith("magnitude"), "nothing to do with R peaks");

        // Both pictures have clips of the same names in their files; on the page each has its own.
        string[] ids = [.. report.Page.Descendants().Attributes("id").Select(a => a.Value)];
        Assert.That(ids.Count(i => i.Contains("cl_", StringComparison.Ordinal)), Is.GreaterThan(1));
        Assert.That(ids, Is.Unique);
        Assert.That(Regex.Matches(report.Html, @"url\(#([^)]*)\)").Select(m => m.Groups[1].Value), Is.SubsetOf(ids));
    }

    [TestCase("r_peak_sensitivity_min", ChannelName.Ecg, "ecg", false)]
    [TestCase("pulse_foot_tangent_sensitivity_min", ChannelName.Infrared, "infrared", true)]
    [TestCase("arrival_time_bias_ms_max", ChannelName.Infrared, "ecg infrared", true)]
    [TestCase("spo2_bias_points_max", ChannelName.Infrared, "red infrared", true)]
    public void Channels_OfARequirement_AreThoseItIsMadeOf(string key, ChannelName channel, string expected, bool needsMovement)
    {
        var requirement = new RequirementOnRow(StudySamples.Requirement(key), 1, channel);
        StreamFormat format = ScenarioReader.ReadText("[scenario]\nduration_s = 20\n", "x.toml").OpenStream().Format;

        Assert.That(string.Join(' ', WorstChannels.Of(requirement, format).Select(c => format.Channels[c].Name.Text())), Is.EqualTo(expected));
        Assert.That(WorstChannels.NeedsMovement(requirement), Is.EqualTo(needsMovement));
        Assert.That(WorstChannels.Axes.Select(format.IndexOf), Has.All.GreaterThanOrEqualTo(0));
    }

    [Test]
    public void Write_FailingPulse_ShowsHowStronglyTheWearerMoves()
    {
        StudyPlan plan = StudySamples.Grid(1, ["ours"], StudySamples.Factor("optics.movement_artefact_ratio", 10.0)) with
        {
            Scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 40\nseed = 3\n\n[movement]\nactivity = \"walking\"\n", "walk.toml"),
            Requirements = [(StudySamples.Requirement("pulse_foot_tangent_sensitivity_min"), 1)],
        };
        using var factory = new LibraryFactory();
        using var maker = new RunMaker(plan, [factory]);
        StudyResults results = new(plan, [maker.Make(0)]);
        IReadOnlyList<WorstCase> cases = WorstCaseFinder.Find(results, [factory], 1);
        using var report = new WrittenReport(results, [], new StudyReportOptions { WorstCases = cases });
        string[] texts = [.. report.Page.Descendants("figure").Single(f => f.Attribute("id")!.Value.StartsWith("worst_case", StringComparison.Ordinal)).Descendants("text").Select(t => t.Value)];

        Assert.That(texts, Has.Some.StartsWith("infrared (").And.Some.StartsWith("magnitude of acceleration ("));
        Assert.That(texts, Has.None.StartsWith("accel").And.None.StartsWith("dark").And.None.StartsWith("ecg ("));
    }
}
