// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using System.Xml.Linq;
using SensorSim.Detectors.Choices;
using SensorSim.Reports.StudyReports;
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
        Assert.That(texts, Has.No.Member("dark (nA)"), "a channel that stands still is left out");

        // Both pictures have clips of the same names in their files; on the page each has its own.
        string[] ids = [.. report.Page.Descendants().Attributes("id").Select(a => a.Value)];
        Assert.That(ids.Count(i => i.Contains("cl_", StringComparison.Ordinal)), Is.GreaterThan(1));
        Assert.That(ids, Is.Unique);
        Assert.That(Regex.Matches(report.Html, @"url\(#([^)]*)\)").Select(m => m.Groups[1].Value), Is.SubsetOf(ids));
    }
}
