// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Recordings;
using SensorSim.Scenarios.Tests.Reading;
using SensorSim.Scenarios.Tests.Streams;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Processes;

namespace SensorSim.Scenarios.Tests.Recordings;

/// <summary>Files of recorded noise: found from the scenario's folder, every mistake with its place, known by their SHA-256.</summary>
[TestFixture]
public sealed class RecordingTests
{
    private const string Rate = "ecg_noise.recording_rate_hz";
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("noise-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [TestCase("value\n", false)]
    [TestCase("time_s,value\r\n", true)]
    public void Read_GoodTable_GivesTheRecording(string header, bool hasTimes)
    {
        NoiseRecording? recording = RecordingReader.Read(Table(header, 100, hasTimes, 0.004), hasTimes ? null : 250, Rate, (l, c, m) => Assert.Fail(m));
        Assert.That(recording!.RateHz, Is.EqualTo(250).Within(1e-9));
    }

    [TestCase("values\n1\n", null, 1, 0, "found the header \"values\"; it must be value, or time_s,value")]
    [TestCase("", null, 1, 0, "found the header \"\"; it must be value, or time_s,value")]
    [TestCase("value\n1\n", null, 1, 0, "the file has no times; set ecg_noise.recording_rate_hz, or add the column time_s")]
    [TestCase("time_s,value\n0,1\n", 250.0, 1, 0, "the file has times, and ecg_noise.recording_rate_hz gives a rate as well; leave out one of them")]
    [TestCase("value\n1\n2\n3\n", 250.0, 1, 0, "found 3 values; at least 64 are needed")]
    [TestCase("value\n1\nx\n3\n", 250.0, 3, 1, "\"x\" must be a number between -1e9 and 1e9, with a point for decimals")]
    [TestCase("time_s,value\n0,1\n0.004,2;5\n", null, 3, 7, "\"2;5\" must be a number between -1e9 and 1e9, with a point for decimals")]
    [TestCase("value\n1\n2,5\n", 250.0, 3, 0, "found 2 fields; the header has 1")]
    [TestCase("value\n1\n\n3\n", 250.0, 3, 1, "\"\" must be a number between -1e9 and 1e9, with a point for decimals")]
    [TestCase("value\nNaN\n", 250.0, 2, 1, "\"NaN\" must be a number between -1e9 and 1e9, with a point for decimals")]
    [TestCase("value\n1e300\n", 250.0, 2, 1, "\"1e300\" must be a number between -1e9 and 1e9, with a point for decimals")]
    public void Read_Mistake_IsToldWithItsPlace(string text, double? rate, int line, int column, string message)
    {
        List<(int, int, string)> found = [];
        Assert.That(RecordingReader.Read(text, rate, Rate, (l, c, m) => found.Add((l, c, m))), Is.Null);
        Assert.That(found, Is.EqualTo(new[] { (line, column, message) }));
    }

    [Test]
    public void Read_UnevenOrSlowTimes_AreRefused()
    {
        string text = Table("time_s,value\n", 100, true, 0.004).Replace("0.2,", "0.203,", StringComparison.Ordinal);
        Assert.That(Mistake(text), Is.EqualTo((52, 0, "time 0.203 s is not evenly spaced; 0.2 s would be")));
        Assert.That(Mistake(Table("time_s,value\n", 100, true, 0.5)).Message, Is.EqualTo("times from 0 to 49.5 s give a rate of 2 Hz; 20 to 10000 Hz are taken"));
        Assert.That(Mistake(Table("time_s,value\n", 100, true, 0)).Message, Does.EndWith("20 to 10000 Hz are taken"));
    }

    // 360 Hz, as loggers write it: 0, 0.003, 0.006, 0.008 s ... A lost sample is still seen: what follows is a spacing late.
    [Test]
    public void Read_TimesRoundedToMilliseconds_AreTaken()
    {
        string[] rows = [.. Enumerable.Range(0, 721).Select(i => FormattableString.Invariant($"{Math.Round(i / 360.0, 3)},{Math.Sin(i)}\n"))];
        List<(int, int, string)> found = [];
        NoiseRecording? recording = RecordingReader.Read("time_s,value\n" + string.Concat(rows), null, Rate, (l, c, m) => found.Add((l, c, m)));
        Assert.That(found, Is.Empty);
        Assert.That(recording!.RateHz, Is.EqualTo(360).Within(1e-9));
        Assert.That(Mistake("time_s,value\n" + string.Concat(rows.Where((_, i) => i != 300))).Message, Does.Contain("is not evenly spaced"));
    }

    [Test]
    public void Read_OneValueThroughout_IsRefused()
    {
        string text = "value\n" + string.Concat(Enumerable.Repeat("1.5\n", 100));
        Assert.That(Mistake(text, 250), Is.EqualTo((2, 0, "all values are the same; noise must vary")));
    }

    [Test]
    public void Read_MoreThanAMillion_IsRefused()
    {
        string text = "value\n" + string.Concat(Enumerable.Repeat("1\n2\n", 500_001));
        Assert.That(Mistake(text, 250), Is.EqualTo((1_000_002, 0, "there are more than 1000000 values; at most so many fit")));
    }

    [Test]
    public void Read_ManyMistakes_StopsAtTwenty()
    {
        int count = 0;
        RecordingReader.Read("value\n" + string.Concat(Enumerable.Repeat("x\n", 1000)), 250, Rate, (l, c, m) => count++);
        Assert.That(count, Is.EqualTo(20));
    }

    [Test]
    public void ReadFile_ScenarioWithRecordings_AttachesThemAndMakesAStream()
    {
        File.WriteAllText(Path.Combine(_folder, "n.csv"), Table("value\n", 100, false, 0));
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[scenario]\nduration_s = 3\n[ecg_noise]\nrecording_file = \"n.csv\"\nrecording_rate_hz = 250\nrecording_snr_db = 6\n"
            + "[optics]\nnoise_recording_file = \"n.csv\"\nnoise_recording_rate_hz = 50\nnoise_recording_na_rms = 3\n");
        Scenario scenario = ScenarioReader.ReadFile(path);
        Assert.That(scenario.Values.Attached<NoiseRecording>(EcgNoiseKeys.RecordingFile)!.RateHz, Is.EqualTo(250));
        Assert.That(scenario.Values.Attached<NoiseRecording>(RecordedLightKeys.File)!.RateHz, Is.EqualTo(50));
        Assert.That(scenario.ReferencedFiles.Select(f => f.Path), Is.EqualTo(new[] { "n.csv", "n.csv" }));
        Assert.That(scenario.ReferencedFiles[0].Sha256, Has.Length.EqualTo(64));
        StreamCheck.ReadAll(scenario.CreateStream());
    }

    [Test]
    public void ReadFile_MistakeInTheFile_NamesFileLineAndColumn()
    {
        File.WriteAllText(Path.Combine(_folder, "n.csv"), "value\n1\nodd\n");
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[ecg_noise]\nrecording_file = \"n.csv\"\nrecording_rate_hz = 250\nrecording_snr_db = 6\n");
        Assert.That(
            () => ScenarioReader.ReadFile(path),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                $"{Path.Combine(_folder, "n.csv")}, line 3, column 1: \"odd\" must be a number between -1e9 and 1e9, with a point for decimals"));
    }

    [TestCase("recording_file = \"none.csv\"\nrecording_snr_db = 6\n", "a.toml, line 2, column 18: ecg_noise.recording_file = \"none.csv\" is no file; give the path of an EDF or BDF file, or of a CSV file with the column value, from the scenario's folder on")]
    [TestCase("recording_uv_rms = 6\n", "a.toml, line 2, column 20: ecg_noise.recording_uv_rms needs a recording; set ecg_noise.recording_file, or leave out ecg_noise.recording_uv_rms")]
    [TestCase("recording_snr_db = 6\n", "a.toml, line 2, column 20: ecg_noise.recording_snr_db needs a recording; set ecg_noise.recording_file, or leave out ecg_noise.recording_snr_db")]
    [TestCase("recording_rate_hz = 250\n", "a.toml, line 2, column 21: ecg_noise.recording_rate_hz needs a recording; set ecg_noise.recording_file, or leave out ecg_noise.recording_rate_hz")]
    public void ReadText_HalfOfIt_IsRefused(string lines, string expected) => Assert.That(Mistaken.Line("[ecg_noise]\n" + lines), Is.EqualTo(expected));

    [Test]
    public void ReadFile_RecordingWithoutLevel_IsRefused()
    {
        File.WriteAllText(Path.Combine(_folder, "n.csv"), Table("value\n", 100, false, 0));
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[ecg_noise]\nrecording_file = \"n.csv\"\nrecording_rate_hz = 250\n");
        Assert.That(
            () => ScenarioReader.ReadFile(path),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                $"{path}, line 2, column 18: ecg_noise.recording_file is heard of only with a level; set ecg_noise.recording_uv_rms or ecg_noise.recording_snr_db"));
    }

    private static (int Line, int Column, string Message) Mistake(string text, double? rate = null)
    {
        var found = new List<(int, int, string)>();
        Assert.That(RecordingReader.Read(text, rate, Rate, (l, c, m) => found.Add((l, c, m))), Is.Null);
        return found.Single();
    }

    private static string Table(string header, int count, bool hasTimes, double spacing)
    {
        var text = new StringBuilder(header);
        string end = header.EndsWith("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        for (int i = 0; i < count; i++)
        {
            string time = hasTimes ? Math.Round(i * spacing, 6).ToString("R", CultureInfo.InvariantCulture) + "," : "";
            text.Append(CultureInfo.InvariantCulture, $"{time}{(i * 7 % 11) - 5}{end}");
        }

        return text.ToString();
    }
}
