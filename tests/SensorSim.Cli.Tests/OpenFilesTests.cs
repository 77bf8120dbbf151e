// SPDX-License-Identifier: MIT
using SensorSim.Tests.Shared;

namespace SensorSim.Cli.Tests;

/// <summary>Recordings in open forms through the command: stored, converted, detected, scored; files of others by their labels.</summary>
[TestFixture]
public sealed class OpenFilesTests : CommandTest
{
    // The length stands on the command line, what lies behind it in the file.
    [Test]
    public void Record_ShorterThanTheTimeLine_NamesOptionAndLine()
    {
        string scenario = Scenario("[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 8\nstep_to = 70\n\n[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 9\nstep_to = 75\n");
        Assert.That(Command.Run("record", scenario, "--out", At("whole")).Code, Is.Zero);
        string[] messages = Command.Refused(ExitCodes.WrongInput, "record", scenario, "--duration-s", "5.5", "--out", At("part"));

        Assert.That(messages, Is.EqualTo(new[]
        {
            $"--duration-s 5.5 is too short for {scenario}, line 5, column 8: at_s = 8 lies after the end of the scenario, and 1 more place like it; give a longer one, or leave it out for the scenario's own 12 s",
        }));
        Assert.That(Directory.Exists(At("part")), Is.False);
    }

    [Test]
    public void Record_SeveralForms_CanBeTurnedBackIntoTheSameFiles()
    {
        Answer made = Command.Run("record", Scenario(seconds: 15), "--format", "bdf,csv", "--format", "npy", "--out", At("made"));
        Assert.That(made.Code, Is.Zero, made.Error);
        Assert.That(made.Messages.Where(m => m.Contains("found no place", StringComparison.Ordinal)), Is.Empty);
        Assert.That(Contents(At("made")).Keys, Is.SupersetOf(new[] { "channels.csv", "ecg.csv", "recording.bdf", "ecg_code.npy", "ecg_sample.npy", "ecg_status.npy", "channels.json", "truth.csv", "acquisition.csv" }));

        Answer back = Command.Run("record", At("made", "recording.bdf"), "--out", At("back"));
        Assert.That(back.Code, Is.Zero, back.Error);
        Dictionary<string, byte[]> first = Contents(At("made"));
        foreach ((string name, byte[] bytes) in Contents(At("back")))
        {
            Assert.That(bytes, Is.EqualTo(first[name]), name);
        }

        Answer again = Command.Run("record", At("back"), "--format", "bdf", "--out", At("again"));
        Assert.That(again.Code, Is.Zero, again.Error);
        Assert.That(Contents(At("again")).Keys, Is.EquivalentTo(new[] { "recording.bdf", "truth.csv", "acquisition.csv" }));
    }

    [Test]
    public void DetectAndScore_BdfAloneOfAFolder_GiveTheFiguresOfTheFolder()
    {
        Command.Run("record", Scenario(seconds: 20), "--format", "bdf,csv", "--out", At("made"));
        Directory.CreateDirectory(At("alone"));

        // The content decides, not the name; and nothing stands beside it.
        File.Copy(At("made", "recording.bdf"), At("alone", "something.dat"));
        Answer answer = Command.Run("detect", At("alone", "something.dat"), "--out", At("b"));
        Command.Run("detect", At("made"), "--out", At("a"));
        Assert.That(answer.Code, Is.Zero, answer.Error);
        Assert.That(File.ReadAllText(At("b", "detections.csv")), Is.EqualTo(File.ReadAllText(At("a", "detections.csv"))));

        string own = Scores(At("alone", "something.dat"));
        string folder = Scores(At("made"));
        Assert.That(own, Is.EqualTo(folder).And.Contain("\"matched\": 1"));

        string Scores(string truth)
        {
            string text = Command.Run("score", truth, At("a", "detections.csv"), "--json").Out;
            int begin = text.IndexOf("\"scores\"", StringComparison.Ordinal);
            return text[begin..text.IndexOf("\"readings\"", begin, StringComparison.Ordinal)];
        }
    }

    [Test]
    public void ScoreAndRecord_BdfAloneWithAClockAndLosses_TakeWhatItsAcquisitionDid()
    {
        // A clock that is 400 ms late would make every beat missed, and lost stretches would count as missed ones.
        string scenario = Scenario("[device]\nclock_offset_ms = 400\nclock_ppm = 200\npacket_loss_percent = 3\n", seconds: 20);
        Command.Run("record", scenario, "--format", "bdf,csv", "--out", At("made"));
        Directory.CreateDirectory(At("alone"));
        File.Copy(At("made", "recording.bdf"), At("alone", "recording.bdf"));
        Command.Run("detect", At("made"), "--out", At("marks"));

        Answer alone = Command.Run("score", At("alone"), At("marks", "detections.csv"), "--json");
        Answer beside = Command.Run("score", At("made"), At("marks", "detections.csv"), "--json");
        Assert.That(Figures(alone), Is.EqualTo(Figures(beside)).And.Contain("\"missed\": 0").And.Contain("\"clock_offset_ms\": 400"));
        Assert.That(alone.Error, Does.Contain("delays, clocks and unusable stretches as far as they stand in"));

        Answer back = Command.Run("record", At("alone", "recording.bdf"), "--out", At("back"));
        Assert.That(back.Code, Is.Zero, back.Error);
        string[] rows = [.. File.ReadLines(At("back", "acquisition.csv"))];
        Assert.That(rows, Is.EquivalentTo(File.ReadLines(At("made", "acquisition.csv")).Where(l => !l.Contains(",level_", StringComparison.Ordinal))));
        Assert.That(rows.Count(r => r.Contains(",unusable_lost,", StringComparison.Ordinal)), Is.Positive);
        Assert.That(rows.Count(r => r.Contains(",gap,", StringComparison.Ordinal)), Is.Positive);

        static string Figures(Answer answer) => answer.Out[answer.Out.IndexOf("\"duration_s\"", StringComparison.Ordinal)..];
    }

    [Test]
    public void Record_ForeignEdf_KeepsAUnitThatOthersKnowAndTheZeroOfEachPrefix()
    {
        foreach ((string unit, int largest) in new[] { ("mV", 5), ("uV", 5000) })
        {
            File.WriteAllBytes(At(unit), ForeignEdf.Bytes(12, [new("ECG", unit, largest, 250, i => (short)(i % 200 == 50 ? 10000 : 0))]));
            Assert.That(Command.Run("record", At(unit), "--format", "csv,edf", "--out", At("of-" + unit)).Code, Is.Zero);

            // Kemp et al. (1992): units stand 96 bytes for each signal after the first 256; there are two with the annotations.
            Assert.That(System.Text.Encoding.ASCII.GetString(File.ReadAllBytes(At("of-" + unit, "recording.edf")), 256 + (96 * 2), 8).Trim(), Is.AnyOf("mV", "uV"));
        }

        Assert.That(File.ReadAllText(At("of-uV", "ecg.csv")), Is.EqualTo(File.ReadAllText(At("of-mV", "ecg.csv"))));
        Assert.That(File.ReadLines(At("of-uV", "channels.csv")).Last().Split(',')[7], Is.EqualTo(File.ReadLines(At("of-mV", "channels.csv")).Last().Split(',')[7]));
    }

    [Test]
    public void Detect_ForeignEdfWithoutAUnit_TakesTheOneThatIsSaid()
    {
        File.WriteAllBytes(At("blank"), ForeignEdf.Bytes(12, [new("Channel 1", "", 3276, 250, i => (short)(i % 200 is 50 or 51 or 52 ? 10000 : 0))]));
        Assert.That(Command.Refused(2, "detect", At("blank")).Single(), Does.Contain("such as --map \"LABEL=ecg\""));
        Assert.That(Command.Refused(2, "detect", At("blank"), "--map", "Channel 1=ecg").Single(), Does.Contain("is measured in \"\"").And.Contain("--unit mv"));
        Assert.That(Command.Refused(2, "detect", At("blank"), "--map", "Channel 1=ecg", "--unit", "counts").Single(), Does.Contain("--unit uv"));
        Answer answer = Command.Run("record", At("blank"), "--map", "Channel 1=ecg", "--unit", "uv", "--out", At("out"));
        Assert.That(answer.Code, Is.Zero, answer.Error);

        // 3276 uV over 32767 codes.
        string text = File.ReadLines(At("out", "channels.csv")).Last().Split(',')[6];
        Assert.That(double.Parse(text, System.Globalization.CultureInfo.InvariantCulture), Is.EqualTo(3.276 / 32767).Within(1e-12));
    }

    [Test]
    public void Record_TableWithTimesOfAnotherName_KeepsItsGapOrSaysThatThereIsNone()
    {
        // A second of samples is missing after the second one.
        string table = Write("t.csv", "Zeit;ecg_mv\n" + string.Concat(Enumerable.Range(0, 1000).Where(i => i is < 500 or >= 750).Select(
            i => FormattableString.Invariant($"{i / 250.0};{i % 100}\n"))));
        Assert.That(Command.Refused(2, "record", table, "--out", At("out")).Single(), Does.Contain("--map \"COLUMN=time_s\""));
        Answer plain = Command.Run("record", table, "--rate-hz", "250", "--out", At("plain"));
        Assert.That(plain.Code, Is.Zero, plain.Error);
        Assert.That(plain.Error, Does.Contain("without a gap between them"));

        Answer named = Command.Run("record", table, "--map", "Zeit=time_s", "--out", At("named"));
        Assert.That(named.Code, Is.Zero, named.Error);
        Assert.That(named.Error, Does.Not.Contain("without a gap"));
        Assert.That(File.ReadLines(At("named", "ecg.csv")).ElementAt(501), Does.StartWith("750,"));
        Assert.That(File.ReadLines(At("plain", "ecg.csv")).ElementAt(501), Does.StartWith("500,"));
        Assert.That(Command.Refused(2, "record", table, "--map", "Time=time_s", "--out", At("out")).Single(), Does.Contain("there is no column \"Time\""));
        Assert.That(Command.Refused(2, "record", table, "--map", "Zeit=time_s", "--map", "x=sample", "--out", At("out")).Single(), Does.Contain("name one column"));
    }

    [Test]
    public void Detect_FilesThatAreWrittenOnly_SaysWhatTheyAre()
    {
        Command.Run("record", Scenario(seconds: 3), "--format", "csv,npy,parquet", "--out", At("rec"));
        Assert.That(Command.Refused(2, "detect", At("rec", "ecg.parquet")).Single(), Does.Contain("this is Parquet, which is written here but not read"));
        Assert.That(Command.Refused(2, "detect", At("rec", "ecg_code.npy")).Single(), Does.Contain("this is NPY"));
        Assert.That(Command.Refused(2, "detect", At("rec", "ecg.csv")).Single(), Does.Contain("one channel of a recording; give its folder"));
    }

    [Test]
    public void Record_RateThatChanges_IsRefusedForBdfOnly()
    {
        string scenario = Scenario("[[setting]]\nat_s = 5\nchannel = \"infrared\"\nsetting = \"decimation\"\nvalue = 5\n");
        Assert.That(
            Command.Refused(2, "record", scenario, "--format", "bdf,csv", "--out", At("out")).Single(),
            Is.EqualTo("--format bdf holds one rate for each channel, and here a channel changes its rate (setting decimation); use csv, npy or parquet"));
        Assert.That(Command.Run("record", scenario, "--format", "csv,parquet", "--out", At("rec")).Code, Is.Zero);
        Assert.That(Command.Refused(2, "record", At("rec"), "--format", "edf", "--out", At("out")).Single(), Does.StartWith("--format edf holds one rate for each channel"));
        Assert.That(Everything(), Has.None.StartsWith("out"));
    }

    [Test]
    public void Detect_ForeignEdf_TakesLabelsOrAMap()
    {
        // A spike of 1 mV every 0.8 s in a lead whose name means nothing here; the other signal is no channel at all.
        ForeignSignal lead = new("Chest 3", "uV", 3276, 250, i => (short)(i % 200 is 50 or 51 or 52 ? 10000 : 0));
        ForeignSignal other = new("Thorax", "", 100, 25, i => (short)i);
        File.WriteAllBytes(At("foreign"), ForeignEdf.Bytes(30, [lead, other], (0.2, "N")));

        Assert.That(Command.Refused(2, "detect", At("foreign")).Single(), Does.Contain("\"Chest 3\", \"Thorax\""));
        Assert.That(Command.Refused(2, "detect", At("foreign"), "--map", "Chest=ecg").Single(), Does.Contain("there is no signal \"Chest\"; the signals are \"Chest 3\", \"Thorax\"."));
        Assert.That(Command.Refused(2, "detect", At("foreign"), "--rate-hz", "250").Single(), Does.Contain("an EDF or BDF file says these itself"));
        Answer answer = Command.Run("detect", At("foreign"), "--map", "Chest 3=ecg", "--out", At("out"));
        Assert.That(answer.Code, Is.Zero, answer.Error);
        Assert.That(answer.Out, Does.Contain("250 Hz"));
        int beats = File.ReadLines(At("out", "detections.csv")).Count(l => l.StartsWith("ecg,r_peak", StringComparison.Ordinal));
        Assert.That(beats, Is.InRange(30, 38), "37 spikes in 30 s");
        Assert.That(Command.Run("record", At("foreign"), "--map", "Chest 3=-ecg", "--out", At("csv")).Code, Is.Zero);
        Assert.That(File.ReadLines(At("csv", "channels.csv")).Last().Split(',')[8], Is.EqualTo("-1"));
    }

    [Test]
    public void Detect_TableOfSeveralColumns_FindsTheBeatsOfTheRecording()
    {
        // The shipped one-column recording, with times, an index of its own and a second column.
        string[] lines = File.ReadAllLines(Path.Combine(Root, "waveforms", "recorded", "ambulatory-ecg.csv"));
        string table = Write("t.csv", "Time [ms];Lead (mV);n\n" + string.Concat(lines.Skip(1).Take(14_400).Select(
            (l, i) => FormattableString.Invariant($"{Math.Round(i / 0.36)};{l};{i}\n"))));
        string plain = Write("p.csv", string.Join('\n', lines.Take(14_401)) + "\n");
        Answer answer = Command.Run("detect", table, "--map", "Lead (mV)=ecg", "--out", At("t"));
        Command.Run("detect", plain, "--rate-hz", "360", "--out", At("p"));

        Assert.That(answer.Code, Is.Zero, answer.Error);
        Assert.That(File.ReadAllText(At("t", "detections.csv")), Is.EqualTo(File.ReadAllText(At("p", "detections.csv"))));
        Assert.That(Command.Refused(2, "detect", table).Single(), Does.Contain("the columns are \"Time [ms]\", \"Lead (mV)\", \"n\"; say which is which"));
    }

    [TestCase("--format bfd", "--format bfd is no form of a recording; the nearest is bdf of csv, bdf, edf, npy, parquet")]
    [TestCase("--format csv,", "--format  is no form of a recording")]
    [TestCase("--map ecg", "\"ecg\": --map must be NAME=CHANNEL")]
    [TestCase("--map a=heart", "\"a=heart\": heart is no channel; the channels are ecg, red")]
    [TestCase("--map a=ecg", "belong to a recording of others; a scenario says these itself")]
    public void Record_WrongOption_SaysWhatWouldBeRight(string options, string expected)
    {
        string[] messages = Command.Refused(2, ["record", Scenario(), "--out", At("out"), .. options.Split(' ')]);
        Assert.That(messages.Single(), Does.Contain(expected));
        Assert.That(Everything(), Is.EqualTo(new[] { "s.toml" }));
    }

    [Test]
    public void Record_RecordingWithOptionsOfAScenario_IsRefused()
    {
        Command.Run("record", Scenario(seconds: 3), "--out", At("rec"));
        Assert.That(Command.Refused(2, "record", At("rec"), "--seed", "2", "--out", At("out")).Single(), Does.Contain("a recording is made already"));
        Assert.That(Command.Refused(2, "record", At("rec"), "--format", "edf", "--out", At("out")).Single(), Does.Contain("write it as BDF"));
    }
}
