// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.VectorSets;

/// <summary>Rows of acceptance come back as they were; what cannot be one is refused with its place.</summary>
[TestFixture]
public sealed class AcceptanceCsvTests
{
    private const string Header = "requirement,channel,kind,rule,begin_ns,end_ns,low,high,emitted_by_ns,beat_id\n";

    [Test]
    public void Rows_ComeBack()
    {
        AcceptanceRow[] rows =
        [
            new("R-1", ChannelName.Ecg, MarkKind.RPeak, AcceptanceRule.One, 5, 9, BeatId: 3),
            new("R-1", null, MarkKind.RPeak, AcceptanceRule.None, -5, 9),
            new("H", ChannelName.Infrared, MarkKind.Spo2Percent, AcceptanceRule.Within, 5, 9, 95.125, 99),
            new("H", null, MarkKind.Spo2Percent, AcceptanceRule.First, 0, 9, EmittedByNs: 9),
        ];
        using var stream = new MemoryStream();
        AcceptanceCsvWriter.Write(stream, rows);
        string text = Encoding.UTF8.GetString(stream.ToArray());
        Assert.That(text, Is.EqualTo(
            Header + "R-1,ecg,r_peak,one,5,9,,,,3\nR-1,,r_peak,none,-5,9,,,,\nH,infrared,spo2_percent,within,5,9,95.125,99,,\nH,,spo2_percent,first,0,9,,,9,\n"));
        Assert.That(Read(text), Is.EqualTo(rows));
    }

    [TestCase("R,ecg,r_peak,two,1,2,,,,", "line 2, column 14: found \"two\"; rule must be one of one, none, within, some, first, by.")]
    [TestCase("R,ecg,r_peak,one,3,2,,,,", "found \"2\"; end_ns must not be before begin_ns.")]
    [TestCase("R,ecg,r_peak,within,1,2,5,,,", "high and low must both be there or both be missing, low not above high.")]
    [TestCase("R,ecg,r_peak,within,1,2,5,4,,", "high and low must both be there or both be missing, low not above high.")]
    [TestCase("R,ekg,r_peak,one,1,2,,,,", "found \"ekg\"; channel must be one of")]
    public void WrongRow_IsToldWithItsPlace(string row, string expected) =>
        Assert.That(Assert.Throws<InputFileException>(() => Read(Header + row + "\n"))!.Message, Does.Contain(expected));

    [Test]
    public void Answers_OnlyThreeColumnsMustBeThere()
    {
        using var reader = new AnswerCsvReader(new MemoryStream(Encoding.UTF8.GetBytes("time_ns,kind,channel,case\n5,r_peak,ecg,rest\n")), "a.csv");
        Assert.That(reader.TryRead(out AnswerRow row));
        Assert.That((row.CaseName, row.Mark.TimeNs, row.Mark.Kind, row.Mark.Channel, row.SaysWhenEmitted, double.IsNaN(row.Mark.Value)), Is.EqualTo(("rest", 5L, MarkKind.RPeak, ChannelName.Ecg, false, true)));
        Assert.That(reader.Columns, Is.EqualTo(new[] { "channel", "kind", "time_ns", "case" }));
    }

    private static List<AcceptanceRow> Read(string text)
    {
        using var reader = new AcceptanceCsvReader(new MemoryStream(Encoding.UTF8.GetBytes(text)), "a.csv");
        return [.. reader.ReadAll()];
    }
}
