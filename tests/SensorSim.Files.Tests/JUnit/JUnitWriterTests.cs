// SPDX-License-Identifier: MIT
using System.Xml.Linq;
using SensorSim.Files.JUnit;

namespace SensorSim.Files.Tests.JUnit;

/// <summary>The shape that build servers read, taken apart by the XML reader of the platform.</summary>
[TestFixture]
public sealed class JUnitWriterTests
{
    private static readonly JUnitCase[] s_cases =
    [
        new("pooled.x", "x, ecg", JUnitOutcome.Failed, "0.9 after 0.99 & <less>\u0001\ud800", "basis"),
        new("pooled.y", "y", JUnitOutcome.Passed, "", "fine"),
        new("point.z", "z", JUnitOutcome.Skipped, "undefined"),
    ];

    [Test]
    public void Write_ThreeOutcomes_HasTheCommonShape()
    {
        XElement root = XDocument.Parse(Text()).Root!;
        Assert.That(root.Name.LocalName, Is.EqualTo("testsuites"));
        XElement suite = root.Elements().Single();
        Assert.That(
            suite.Attributes().Select(a => (a.Name.LocalName, a.Value)),
            Is.EqualTo(new[] { ("name", "study"), ("tests", "3"), ("skipped", "1"), ("failures", "1"), ("errors", "0"), ("time", "0") }));
        Assert.That(suite.Element("properties")!.Elements().Select(p => (p.Attribute("name")!.Value, p.Attribute("value")!.Value)), Is.EqualTo(new[] { ("baseline", "a") }));
        XElement[] cases = [.. suite.Elements("testcase")];
        Assert.That(cases.Select(c => (c.Attribute("classname")!.Value, c.Attribute("name")!.Value)), Is.EqualTo(s_cases.Select(c => (c.ClassName, c.Name))));
        Assert.That(cases.Select(c => string.Join(' ', c.Elements().Select(e => e.Name.LocalName))), Is.EqualTo(new[] { "failure system-out", "system-out", "skipped" }));
    }

    [Test]
    public void Write_WhatXmlDoesNotAllow_IsReplaced()
    {
        XElement failure = XDocument.Parse(Text()).Descendants("failure").Single();
        Assert.That(failure.Attribute("message")!.Value, Is.EqualTo("0.9 after 0.99 & <less>\uFFFD\uFFFD"));
        Assert.That(failure.Value, Is.EqualTo(failure.Attribute("message")!.Value));
    }

    [Test]
    public void Write_Bytes_AreUtf8WithoutMarkAndLineFeeds() =>
        Assert.That(Text(), Does.StartWith("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<testsuites>").And.EndWith("</testsuites>\n").And.Not.Contain("\r"));

    private static string Text()
    {
        using var stream = new MemoryStream();
        JUnitWriter.Write(stream, "study", [("baseline", "a")], s_cases);
        byte[] bytes = stream.ToArray();
        Assert.That(bytes[0], Is.EqualTo((byte)'<'));
        return System.Text.Encoding.UTF8.GetString(bytes);
    }
}
