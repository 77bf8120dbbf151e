// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings;
using SensorSim.Files.Rows;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

/// <summary>Every mistake in a file is one line that says where it is, what was found and what would be right.</summary>
public class InputErrorTests
{
    private const string Truth = "channel,kind,time_ns,value,beat_id,label\n";

    [TestCase("", 1, 0, "empty; the header must be channel,kind,time_ns,value,beat_id,label")]
    [TestCase("channel,kind,time_ns,value,beat_id\n", 1, 0, "without column label")]
    [TestCase("channel,kind,time_s,value,beat_id,label\n", 1, 14, "found column \"time_s\"")]
    [TestCase("channel,kind,kind,value,beat_id,label\n", 1, 14, "a second time")]
    [TestCase(Truth + "ecg,r_peak,1,,,\nECG,r_peak,2,,,\n", 3, 1, "found \"ECG\"; channel must be one of ecg, red")]
    [TestCase(Truth + "ecg,rpeak,1,,,\n", 2, 5, "found \"rpeak\"; kind must be one of r_peak")]
    [TestCase(Truth + "ecg,r_peak,1.5,,,\n", 2, 12, "time_ns must be a whole number")]
    [TestCase(Truth + "ecg,r_peak,,,,\n", 2, 12, "found \"\"; time_ns must be a whole number")]
    [TestCase(Truth + "ecg,r_peak,1,NaN,,\n", 2, 14, "found \"NaN\"; value must be a finite number")]
    [TestCase(Truth + "ecg,r_peak,1,Infinity,,\n", 2, 14, "value must be a finite number")]
    [TestCase(Truth + "ecg,r_peak,1,1e999,,\n", 2, 14, "value must be a finite number")]
    [TestCase(Truth + "ecg,r_peak,1,0,5,1,\n", 2, 20, "found 7 fields; the header has 6")]
    [TestCase(Truth + "ecg,r_peak,1,0.5,1,big\n", 2, 20, "found \"big\"; label must be one of none, normal, wide")]
    [TestCase(Truth + "ecg,r_peak,1,0.5,-1,\n", 2, 18, "beat_id must be a whole number from 0")]
    [TestCase(Truth + "ecg,r_peak,1,0.\n", 2, 16, "found 4 fields; the header has 6")]
    [TestCase(Truth + "ecg,r_peak,1,0.5,1,normal", 2, 26, "ends inside this line")]
    [TestCase(Truth + "\n", 2, 1, "found 1 fields")]
    public void Truth_Mistake_IsNamedWithLineAndColumn(string text, long line, int column, string message) =>
        AssertMistake(
            () =>
            {
                using var reader = new TruthCsvReader(Streams.Of(text), "truth.csv");
                _ = reader.ReadAll().Count();
            },
            "truth.csv", line, column, message);

    [TestCase("label\nwide\n", 1, 0, "neither a column sample nor a column time_s")]
    [TestCase("time_s,label\n1,wide\n1,wide\n", 3, 1, "must be later than in the row before")]
    [TestCase("time_s,label\n1,broad\n", 2, 3, "label must be normal or wide")]
    [TestCase("time_s,confidence\n1,sure\n", 2, 3, "confidence must be high, medium or low")]
    [TestCase("time_s\n-1\n", 2, 1, "time_s must be seconds from 0 on")]
    [TestCase("sample\n5\n", 1, 0, "give their sampling rate")]
    public void BeatList_Mistake_IsNamedWithLineAndColumn(string text, long line, int column, string message) =>
        AssertMistake(
            () =>
            {
                using var reader = new BeatListCsvReader(Streams.Of(text), "beats.csv", null);
                _ = reader.ReadAll().Count();
            },
            "beats.csv", line, column, message);

    [Test]
    public void Intervals_EndBeforeBegin_IsNamed() =>
        AssertMistake(
            () =>
            {
                using var reader = new IntervalsCsvReader(Streams.Of("begin_s,end_s\n5,4\n"), "i.csv");
                _ = reader.ReadAll().Count();
            },
            "i.csv", 2, 3, "end_s must be later than begin_s");

    [TestCase("ecg_mv\n0.1\n0,2\n", 3, 1, "found \"0,2\"; a line must hold one finite number with a decimal point")]
    [TestCase("ecg_mv\n0.1\nNaN\n", 3, 1, "found \"NaN\"")]
    [TestCase("ecg_mv\n0.1\n\n0.2\n", 3, 1, "the line is empty")]
    [TestCase("ecg_mv\n0.1\n9000\n", 3, 1, "the 24-bit codes hold -8388.608 to 8388.607 only")]
    [TestCase("0.1\n0.2\n", 1, 1, "the first line must be a header")]
    [TestCase("ecg_mv\n", 1, 0, "there is no number after the header")]
    [TestCase("", 1, 0, "the file is empty")]
    [TestCase("ecg_mv\n1;2\n", 2, 1, "found \"1;2\"")]
    public void Column_Mistake_IsNamedWithLineAndColumn(string text, long line, int column, string message)
    {
        using var folder = new TestFolder();
        string path = folder.Write("column.csv", text);
        foreach (string culture in new[] { "", "de-DE", "tr-TR" })
        {
            using var _ = new CultureScope(culture);
            AssertMistake(() => new ColumnCsvSource(path, new ColumnCsvOptions { RateHz = 360 }).Dispose(), path, line, column, message);
        }
    }

    [TestCase("1.5", "counts must be whole numbers")]
    [TestCase("8388608", "the 24-bit codes hold -8388608 to 8388607 only")]
    public void Column_CountsThatAreNone_AreNamed(string number, string message)
    {
        using var folder = new TestFolder();
        string path = folder.Write("column.csv", $"codes\n8388607\n{number}\n");
        var options = new ColumnCsvOptions { RateHz = 100, Channel = ChannelName.Infrared, Unit = ColumnUnit.Counts };
        AssertMistake(() => new ColumnCsvSource(path, options).Dispose(), path, 3, 1, message);
    }

    [Test]
    public void Column_MillivoltsOfLight_AreRefused() =>
        Assert.That(
            () => new ColumnCsvSource("x.csv", new ColumnCsvOptions { RateHz = 100, Channel = ChannelName.Infrared }),
            Throws.ArgumentException.With.Message.Contains("for infrared the numbers must be counts"));

    [Test]
    public void AnyReader_NoSuchFile_IsNamed()
    {
        using var folder = new TestFolder();
        string path = folder["none.csv"];
        AssertMistake(() => new TruthCsvReader(path).Dispose(), path, 0, 0, "there is no such file");
        AssertMistake(() => new TruthCsvReader(folder.Root).Dispose(), folder.Root, 0, 0, "a file (not a folder)");
    }

    [Test]
    public void AnyReader_NotUtf8_IsNamed() =>
        AssertMistake(
            () =>
            {
                byte[] bytes = [.. System.Text.Encoding.UTF8.GetBytes(Truth), 0xFF, 0xFE, (byte)'\n'];
                using var reader = new TruthCsvReader(new MemoryStream(bytes), "t.csv");
                _ = reader.ReadAll().Count();
            },
            "t.csv", 1, 0, "not UTF-8 text");

    [Test]
    public void AnyReader_EndlessLine_IsNamedWithoutReadingItAll() =>
        AssertMistake(
            () =>
            {
                using var reader = new TruthCsvReader(Streams.Of(Truth + new string('x', 10_000_000)), "t.csv");
                _ = reader.ReadAll().Count();
            },
            "t.csv", 2, 4096, "longer than 4096 characters");

    private static void AssertMistake(Action read, string file, long line, int column, string message)
    {
        InputFileException? mistake = Assert.Throws<InputFileException>(read);
        Assert.That(mistake!.Message, Does.Contain(message));
        Assert.That(mistake.Message, Does.StartWith(file));
        Assert.That(mistake.Message, Does.Not.Contain("\n"));
        Assert.That((mistake.File, mistake.Line, mistake.Column), Is.EqualTo((file, line, column)));
    }
}
