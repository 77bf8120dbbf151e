// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Vectors.Answers;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Answers in files: one for all cases, one for each, and what is refused; and their exact comparison.</summary>
[TestFixture]
public sealed class AnswersTests
{
    private const string Row = "channel,kind,time_ns\necg,r_peak,5\n";
    private static readonly string[] s_cases = ["rest", "off"];
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("answers-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void Read_OneFile_IsPartedByCase()
    {
        IReadOnlyDictionary<string, CaseFile> found = AnswersReader.Read(Write("a.csv", "case,channel,kind,time_ns\noff,ecg,r_peak,5\nrest,ecg,r_peak,6\noff,ecg,r_peak,7\n"), s_cases);
        Assert.That(found.OrderBy(f => f.Key).Select(f => (f.Key, string.Join(' ', f.Value.Rows.Select(r => r.Mark.TimeNs)))), Is.EqualTo(new[] { ("off", "5 7"), ("rest", "6") }));
    }

    [Test]
    public void Read_Folder_TakesBothWays()
    {
        Write("rest.csv", Row);
        Write(Path.Combine("off", "detections.csv"), Row);
        Write("notes.txt", "x");
        Assert.That(AnswersReader.Read(_folder, s_cases).Keys.Order(), Is.EqualTo(new[] { "off", "rest" }));
    }

    // A detector that was run and said nothing: a row with the case alone.
    [Test]
    public void Read_RowWithTheCaseAlone_IsNoAnswer()
    {
        IReadOnlyDictionary<string, CaseFile> found = AnswersReader.Read(Write("n.csv", "case,channel,kind,time_ns\noff,,,\nrest,ecg,r_peak,6\n"), s_cases);
        Assert.That(found.OrderBy(f => f.Key).Select(f => (f.Key, f.Value.Rows.Count)), Is.EqualTo(new[] { ("off", 0), ("rest", 1) }));
        Assert.That(Refused(Write("m.csv", "case,channel,kind,time_ns\noff,,,5\n")), Does.Contain("m.csv, line 2"));
    }

    [Test]
    public void Read_OneCase_NeedsNoColumn() => Assert.That(AnswersReader.Read(Write("a.csv", "channel,kind,time_ns\n"), ["rest"])["rest"].Rows, Is.Empty);

    [Test]
    public void Read_WhatDoesNotFit_IsRefused()
    {
        Assert.That(Refused(Write("a.csv", Row)), Does.EndWith("a.csv, line 1: does not say which of the 2 cases each answer belongs to; add a column case, or give a folder with CASE.csv for each."));
        Assert.That(Refused(Write("b.csv", "case,channel,kind,time_ns\nrset,ecg,r_peak,5\n")), Does.EndWith("b.csv, line 2: rset is no case of the set; the nearest is rest."));
        Assert.That(Refused(Write("c.csv", "case,channel,kind,time_ns\nrest,ecg,r_peak,x\n")), Does.Contain("c.csv, line 2, column 17: found \"x\"; time_ns must be a whole number"));
        Assert.That(Refused(Path.Combine(_folder, "no.csv")), Does.EndWith("no.csv: there is no such file; give the path of an existing one."));
        Assert.That(Refused(_folder), Does.EndWith("a.csv: a is no case of the set; the nearest is off."));
        string empty = Directory.CreateDirectory(Path.Combine(_folder, "empty")).FullName;
        Assert.That(Refused(empty), Does.EndWith("empty: holds no answers; put them into CASE/detections.csv or CASE.csv, for example rest.csv."));
        Write(Path.Combine("two", "rest.csv"), Row);
        Write(Path.Combine("two", "rest", "detections.csv"), Row);
        Assert.That(Refused(Path.Combine(_folder, "two")), Does.Contain("holds answers to the case rest as well; keep one of the two."));
    }

    [Test]
    public void Compare_SameInAnyOrder_IsExact()
    {
        DetectionRow[] expected = [TestCases.Mark(MarkKind.RPeak, 1), TestCases.Mark(MarkKind.HeartRateBpm, 2, 62.5), TestCases.Mark(MarkKind.RPeak, 1)];
        AnswerDifference difference = ExactAnswers.Compare(expected, Given(["channel", "kind", "time_ns", "value"], [.. expected.Reverse()]));
        Assert.That((difference.IsExact, difference.EqualCount), Is.EqualTo((true, 3L)));
    }

    [Test]
    public void Compare_OneNanosecond_IsNamed()
    {
        DetectionRow[] expected = [TestCases.Mark(MarkKind.RPeak, 1), TestCases.Mark(MarkKind.RPeak, 2), TestCases.Mark(MarkKind.RPeak, 3)];
        DetectionRow[] given = [expected[0], expected[1] with { TimeNs = expected[1].TimeNs + 1 }, expected[2]];
        AnswerDifference difference = ExactAnswers.Compare(expected, Given(["channel", "kind", "time_ns"], given));
        Assert.That(difference.Sentence, Is.EqualTo(
            "2 of 3 expected answers are the same in channel, kind, time_ns; 3 were given; first difference: r_peak in ecg at 2.000 s: time_ns is 2000000001, expected 2000000000"));
        Assert.That(ExactAnswers.Compare(expected, Given(["channel", "kind", "time_ns"], given[..1])).Sentence, Does.EndWith("r_peak in ecg at 2.000 s: is expected and was not given"));
        Assert.That(
            ExactAnswers.Compare(expected, Given(["channel", "kind", "time_ns"], [TestCases.Mark(MarkKind.PPeak, 0.5), .. expected])).Sentence, Does.EndWith("p_peak in ecg at 0.500 s: was given and is not expected"));
    }

    [Test]
    public void Compare_ColumnsThatAreNotGiven_AreNotCompared()
    {
        DetectionRow[] expected = [TestCases.Mark(MarkKind.RPeak, 1)];
        DetectionRow[] given = [expected[0] with { Quality = 3, EmittedTimeNs = 0 }];
        Assert.That(ExactAnswers.Compare(expected, Given(["channel", "kind", "time_ns"], given)).IsExact);
        Assert.That(ExactAnswers.Compare(expected, Given(["channel", "kind", "time_ns", "quality"], given)).Sentence, Does.EndWith("quality is 3, expected 255"));
    }

    private static CaseFile Given(string[] columns, DetectionRow[] rows) => new("a.csv", columns, [.. rows.Select(r => new AnswerRow("", r, true))]);

    private static string Refused(string path) => Assert.Throws<InputFileException>(() => AnswersReader.Read(path, s_cases))!.Message;

    private string Write(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
        return path;
    }
}
