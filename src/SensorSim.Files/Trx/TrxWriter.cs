// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using System.Xml;
using SensorSim.Files.JUnit;
using SensorSim.Files.Text;

namespace SensorSim.Files.Trx;

/// <summary>Writes cases as TRX, the test results that build servers and test managers of the .NET world read: the same bytes for the same cases.</summary>
/// <remarks>
/// Shape: the vendor's schema TeamTest/2010, as the SDK's own logger writes it. Identifiers come from names; there is no host, no time but the day that the user names, so a file
/// does not depend on the machine. As there, <c>notExecuted</c> stays 0 and what was skipped is total less executed.
/// </remarks>
public static class TrxWriter
{
    private const string Namespace = "http://microsoft.com/schemas/VisualStudio/TeamTest/2010";
    private const string UnitTestType = "13cdc9d9-ddb5-4fa4-a97d-d965ccfc6d4b";
    private const string ListOfAll = "19431567-8539-422a-85d7-44ee4e166bda";
    private const string ListOfNone = "8c84fa94-04c1-424b-9868-57a2d4851a1d";
    private const string Zero = "0001-01-01T00:00:00.0000000+00:00";
    private const string NoTime = "00:00:00.0000000";

    private static readonly string[] s_zeroCounters =
    [
        "error", "timeout", "aborted", "inconclusive", "passedButRunAborted", "notRunnable", "notExecuted", "disconnected", "warning", "completed", "inProgress", "pending",
    ];

    /// <summary>Writes one run.</summary>
    /// <param name="stream">Takes UTF-8 text; left open.</param>
    /// <param name="run">Name of the run.</param>
    /// <param name="cases">The cases; class name and name together name each once.</param>
    /// <param name="day">The day that the user says it was run on; null: not said, and the times are zero.</param>
    public static void Write(Stream stream, string run, IReadOnlyList<JUnitCase> cases, DateOnly? day = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(cases);
        string time = day is DateOnly said ? said.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) + "T00:00:00.0000000+00:00" : Zero;
        var settings = new XmlWriterSettings { Encoding = new UTF8Encoding(false), Indent = true, NewLineChars = "\n", CloseOutput = false };
        using (var xml = XmlWriter.Create(stream, settings))
        {
            xml.WriteStartDocument();
            xml.WriteStartElement("TestRun", Namespace);
            Attributes(xml, ("id", Id($"run {run}")), ("name", run));
            Element(xml, "Times", ("creation", time), ("queuing", time), ("start", time), ("finish", time));
            Element(xml, "TestSettings", ("name", "default"), ("id", Id($"settings {run}")));
            Results(xml, run, cases, time);
            Definitions(xml, run, cases);
            Entries(xml, run, cases);
            xml.WriteStartElement("TestLists");
            Element(xml, "TestList", ("name", "Results Not in a List"), ("id", ListOfNone));
            Element(xml, "TestList", ("name", "All Loaded Results"), ("id", ListOfAll));
            xml.WriteEndElement();
            Summary(xml, cases);
            xml.WriteEndElement();
        }

        stream.WriteByte((byte)'\n');
    }

    private static void Results(XmlWriter xml, string run, IReadOnlyList<JUnitCase> cases, string time)
    {
        xml.WriteStartElement("Results");
        foreach (JUnitCase one in cases)
        {
            xml.WriteStartElement("UnitTestResult");
            Attributes(
                xml,
                ("executionId", ExecutionId(run, one)),
                ("testId", TestId(one)),
                ("testName", FullName(one)),
                ("computerName", "any"),
                ("duration", NoTime),
                ("startTime", time),
                ("endTime", time),
                ("testType", UnitTestType),
                ("outcome", Outcome(one)),
                ("testListId", ListOfNone),
                ("relativeResultsDirectory", ExecutionId(run, one)));
            if (one.Message.Length > 0 || one.Text.Length > 0)
            {
                xml.WriteStartElement("Output");
                if (one.Text.Length > 0)
                {
                    xml.WriteElementString("StdOut", XmlCharacters.Allowed(one.Text));
                }

                if (one.Message.Length > 0)
                {
                    xml.WriteStartElement("ErrorInfo");
                    xml.WriteElementString("Message", XmlCharacters.Allowed(one.Message));
                    xml.WriteEndElement();
                }

                xml.WriteEndElement();
            }

            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static void Definitions(XmlWriter xml, string run, IReadOnlyList<JUnitCase> cases)
    {
        xml.WriteStartElement("TestDefinitions");
        foreach (JUnitCase one in cases)
        {
            xml.WriteStartElement("UnitTest");
            Attributes(xml, ("name", FullName(one)), ("storage", run), ("id", TestId(one)));
            Element(xml, "Execution", ("id", ExecutionId(run, one)));
            Element(xml, "TestMethod", ("codeBase", run), ("adapterTypeName", "none"), ("className", one.ClassName), ("name", one.Name));
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static void Entries(XmlWriter xml, string run, IReadOnlyList<JUnitCase> cases)
    {
        xml.WriteStartElement("TestEntries");
        foreach (JUnitCase one in cases)
        {
            Element(xml, "TestEntry", ("testId", TestId(one)), ("executionId", ExecutionId(run, one)), ("testListId", ListOfNone));
        }

        xml.WriteEndElement();
    }

    private static void Summary(XmlWriter xml, IReadOnlyList<JUnitCase> cases)
    {
        int passed = cases.Count(c => c.Outcome == JUnitOutcome.Passed);
        int failed = cases.Count(c => c.Outcome == JUnitOutcome.Failed);
        xml.WriteStartElement("ResultSummary");
        Attributes(xml, ("outcome", failed > 0 ? "Failed" : "Completed"));
        Element(
            xml,
            "Counters",
            [
                ("total", Text(cases.Count)), ("executed", Text(passed + failed)), ("passed", Text(passed)), ("failed", Text(failed)),
                .. s_zeroCounters.Select(n => (n, "0")),
            ]);
        xml.WriteEndElement();
    }

    private static void Element(XmlWriter xml, string name, params (string Name, string Value)[] attributes)
    {
        xml.WriteStartElement(name);
        Attributes(xml, attributes);
        xml.WriteEndElement();
    }

    private static void Attributes(XmlWriter xml, params (string Name, string Value)[] attributes)
    {
        foreach ((string name, string value) in attributes)
        {
            xml.WriteAttributeString(name, XmlCharacters.Allowed(value));
        }
    }

    private static string Outcome(JUnitCase one) => one.Outcome switch
    {
        JUnitOutcome.Passed => "Passed",
        JUnitOutcome.Failed => "Failed",
        _ => "NotExecuted",
    };

    private static string FullName(JUnitCase one) => $"{one.ClassName}.{one.Name}";

    private static string TestId(JUnitCase one) => Id($"test {FullName(one)}");

    private static string ExecutionId(string run, JUnitCase one) => Id($"execution {run} {FullName(one)}");

    private static string Id(string name) => TrxIds.Of(name).ToString("D", CultureInfo.InvariantCulture);

    private static string Text(int count) => count.ToString(CultureInfo.InvariantCulture);
}
