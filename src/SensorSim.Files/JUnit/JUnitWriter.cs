// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using System.Xml;
using SensorSim.Files.Text;

namespace SensorSim.Files.JUnit;

/// <summary>Writes cases as JUnit XML, which build servers read: the same bytes for the same cases.</summary>
/// <remarks>
/// There is no formal standard; the shape is the common one: <c>testsuites</c>, <c>testsuite</c> with counts, <c>testcase</c> with at most one of
/// <c>failure</c> and <c>skipped</c> inside. Times are 0 and there is no host or time stamp: a file must not depend on the machine. Characters that XML 1.0
/// does not allow become U+FFFD.
/// </remarks>
public static class JUnitWriter
{
    /// <summary>Writes one suite.</summary>
    /// <param name="stream">Takes UTF-8 text; left open.</param>
    /// <param name="suite">Name of the suite.</param>
    /// <param name="properties">Names and values that say what was judged.</param>
    /// <param name="cases">The cases.</param>
    public static void Write(Stream stream, string suite, IReadOnlyList<(string Name, string Value)> properties, IReadOnlyList<JUnitCase> cases)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(properties);
        ArgumentNullException.ThrowIfNull(cases);
        var settings = new XmlWriterSettings { Encoding = new UTF8Encoding(false), Indent = true, NewLineChars = "\n", CloseOutput = false };
        using (var xml = XmlWriter.Create(stream, settings))
        {
            xml.WriteStartDocument();
            xml.WriteStartElement("testsuites");
            xml.WriteStartElement("testsuite");
            Attribute(xml, "name", suite);
            Attribute(xml, "tests", Text(cases.Count));
            Attribute(xml, "skipped", Text(cases.Count(c => c.Outcome == JUnitOutcome.Skipped)));
            Attribute(xml, "failures", Text(cases.Count(c => c.Outcome == JUnitOutcome.Failed)));
            Attribute(xml, "errors", "0");
            Attribute(xml, "time", "0");
            Properties(xml, properties);
            foreach (JUnitCase one in cases)
            {
                Case(xml, one);
            }

            xml.WriteEndElement();
            xml.WriteEndElement();
        }

        stream.WriteByte((byte)'\n');
    }

    private static void Properties(XmlWriter xml, IReadOnlyList<(string Name, string Value)> properties)
    {
        if (properties.Count == 0)
        {
            return;
        }

        xml.WriteStartElement("properties");
        foreach ((string name, string value) in properties)
        {
            xml.WriteStartElement("property");
            Attribute(xml, "name", name);
            Attribute(xml, "value", value);
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static void Case(XmlWriter xml, JUnitCase one)
    {
        xml.WriteStartElement("testcase");
        Attribute(xml, "classname", one.ClassName);
        Attribute(xml, "name", one.Name);
        Attribute(xml, "time", "0");
        if (one.Outcome != JUnitOutcome.Passed)
        {
            bool hasFailed = one.Outcome == JUnitOutcome.Failed;
            xml.WriteStartElement(hasFailed ? "failure" : "skipped");
            if (hasFailed)
            {
                Attribute(xml, "type", "worse");
            }

            Attribute(xml, "message", one.Message);
            if (hasFailed)
            {
                xml.WriteString(XmlCharacters.Allowed(one.Message));
            }

            xml.WriteEndElement();
        }

        if (one.Text.Length > 0)
        {
            xml.WriteElementString("system-out", XmlCharacters.Allowed(one.Text));
        }

        xml.WriteEndElement();
    }

    private static void Attribute(XmlWriter xml, string name, string value) => xml.WriteAttributeString(name, XmlCharacters.Allowed(value));

    private static string Text(int count) => count.ToString(CultureInfo.InvariantCulture);
}
