// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using System.Xml.Linq;
using SensorSim.Files.JUnit;
using SensorSim.Files.Trx;

namespace SensorSim.Files.Tests.Trx;

/// <summary>
/// The shape of the vendor's schema TeamTest/2010 as the logger of the SDK (vstest, .NET 10) was seen to write it: order of elements, attributes, joins by id,
/// fixed ids of type and lists, and counters of which skipped is total less executed.
/// </summary>
[TestFixture]
public sealed class TrxWriterTests
{
    private static readonly XNamespace s_ns = "http://microsoft.com/schemas/VisualStudio/TeamTest/2010";

    private static readonly JUnitCase[] s_cases =
    [
        new("rest", "ECG-1", JUnitOutcome.Passed, "", "12 of 12"),
        new("rest", "HR-1", JUnitOutcome.Failed, "wrong & <less>\u0001"),
        new("off", "HR-1", JUnitOutcome.Skipped, "known"),
    ];

    [Test]
    public void Write_ThreeOutcomes_HasTheShape()
    {
        XElement root = XDocument.Parse(Text("set")).Root!;
        Assert.That(root.Name, Is.EqualTo(s_ns + "TestRun"));
        Assert.That(
            root.Elements().Select(e => e.Name.LocalName),
            Is.EqualTo(new[] { "Times", "TestSettings", "Results", "TestDefinitions", "TestEntries", "TestLists", "ResultSummary" }));
        XElement[] results = [.. root.Element(s_ns + "Results")!.Elements()];
        Assert.That(results.Select(r => r.Attribute("outcome")!.Value), Is.EqualTo(new[] { "Passed", "Failed", "NotExecuted" }));
        Assert.That(results.Select(r => r.Attribute("testType")!.Value).Distinct(), Is.EqualTo(new[] { "13cdc9d9-ddb5-4fa4-a97d-d965ccfc6d4b" }));
        Assert.That(results.Select(r => r.Attribute("testListId")!.Value).Distinct(), Is.EqualTo(new[] { "8c84fa94-04c1-424b-9868-57a2d4851a1d" }));
        Assert.That(results.Select(r => r.Attribute("duration")!.Value), Has.All.Matches<string>(d => Regex.IsMatch(d, @"^\d\d:\d\d:\d\d\.\d{7}$")));
        Assert.That(results[1].Element(s_ns + "Output")!.Element(s_ns + "ErrorInfo")!.Element(s_ns + "Message")!.Value, Is.EqualTo("wrong & <less>\uFFFD"));
        Assert.That(
            root.Element(s_ns + "TestLists")!.Elements().Select(l => l.Attribute("id")!.Value),
            Is.EqualTo(new[] { "8c84fa94-04c1-424b-9868-57a2d4851a1d", "19431567-8539-422a-85d7-44ee4e166bda" }));
    }

    [Test]
    public void Write_Ids_JoinResultsDefinitionsAndEntries()
    {
        XElement root = XDocument.Parse(Text("set")).Root!;
        (string, string)[] results = [.. root.Element(s_ns + "Results")!.Elements().Select(r => (r.Attribute("testId")!.Value, r.Attribute("executionId")!.Value))];
        (string, string)[] definitions =
            [.. root.Element(s_ns + "TestDefinitions")!.Elements().Select(u => (u.Attribute("id")!.Value, u.Element(s_ns + "Execution")!.Attribute("id")!.Value))];
        (string, string)[] entries = [.. root.Element(s_ns + "TestEntries")!.Elements().Select(e => (e.Attribute("testId")!.Value, e.Attribute("executionId")!.Value))];
        Assert.That(definitions, Is.EqualTo(results));
        Assert.That(entries, Is.EqualTo(results));
        Assert.That(results.SelectMany(r => new[] { r.Item1, r.Item2 }), Is.Unique);
        Assert.That(results.All(r => Guid.TryParse(r.Item1, out Guid id) && id.Version == 8), "version 8 of RFC 9562: made otherwise");
        Assert.That(
            root.Descendants(s_ns + "TestMethod").Select(m => (m.Attribute("className")!.Value, m.Attribute("name")!.Value)), Is.EqualTo(s_cases.Select(c => (c.ClassName, c.Name))));
    }

    [Test]
    public void Write_Counters_LeaveSkippedAsTotalLessExecuted()
    {
        XElement summary = XDocument.Parse(Text("set")).Root!.Element(s_ns + "ResultSummary")!;
        XElement counters = summary.Element(s_ns + "Counters")!;
        Assert.That(summary.Attribute("outcome")!.Value, Is.EqualTo("Failed"));
        Assert.That(
            new[] { "total", "executed", "passed", "failed", "notExecuted" }.Select(n => counters.Attribute(n)!.Value), Is.EqualTo(new[] { "3", "2", "1", "1", "0" }));
    }

    [Test]
    public void Write_SameCases_SameBytes_AndAnotherRunAnotherExecution()
    {
        string first = Text("set");
        Assert.That(Text("set"), Is.EqualTo(first));
        Assert.That(Ids("set", "testId"), Is.EqualTo(Ids("other", "testId")), "a test is the same test in every run");
        Assert.That(Ids("set", "executionId").Intersect(Ids("other", "executionId")), Is.Empty);
        Assert.That(Text("set"), Does.Not.Contain("\r"));

        static string[] Ids(string run, string name) =>
            [.. XDocument.Parse(Text(run)).Root!.Element(s_ns + "Results")!.Elements().Select(r => r.Attribute(name)!.Value)];
    }

    private static string Text(string run)
    {
        using var stream = new MemoryStream();
        TrxWriter.Write(stream, run, s_cases);
        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }
}
