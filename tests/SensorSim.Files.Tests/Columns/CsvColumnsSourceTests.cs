// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings.Columns;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Files.Tests.Columns;

/// <summary>Tables of several columns become streams; expected codes by hand from the scale that docs/files.md states.</summary>
[TestFixture]
public sealed class CsvColumnsSourceTests
{
    private static readonly CsvColumnsOptions s_plain = new();

    [TestCase("")]
    [TestCase("de-DE")]
    [TestCase("tr-TR")]
    public void Read_ChannelsByName_HaveRateUnitsAndCodes(string culture)
    {
        using var _ = new CultureScope(culture);
        using var folder = new TestFolder();

        // 1 µV, 0.01 nA and 0.1 mg a code; 2.5 µV lies between two codes and goes to the even one; 9.80665 m/s² is 1 g by definition.
        string path = folder.Write("t.csv", "time_s,ecg_mv,infrared_ua,accel_z_m_s2,note\n0,0.0025,1.5,9.80665,9\n0.004,-1e-3,2,-9.80665,8\n0.008,0.5,2.5,0,7\n");
        using var source = new CsvColumnsSource(path, s_plain);

        Assert.That(source.Format.Channels.Select(c => (c.Name, c.RateHz, c.UnitPerCode)), Is.EqualTo(new[]
        {
            (ChannelName.Ecg, 250, 1e-3), (ChannelName.Infrared, 250, 1e-2), (ChannelName.AccelZ, 250, 1e-4),
        }));
        Assert.That(ReadAll(source, 2), Is.EqualTo(new[]
        {
            new[] { (0L, 2), (1, -1), (2, 500) }, [(0, 150_000), (1, 200_000), (2, 250_000)], [(0, 10_000), (1, -10_000), (2, 0)],
        }));
    }

    [TestCase("Time [ms];ECG (mV);SpO2\n0;0.25;97\n4;-0.25;97\n")]
    [TestCase("# made up\n\"time [ms]\"\t\"ecg [mV]\"\n\"0\"\t\"0.25\"\n\"4\"\t\"-0.25\"\n")]
    [TestCase("time_us,ecg_uv\r\n0,250\r\n4000,-250\r\n\r\n")]
    [TestCase("time_ns,ecg\n1000000000,0.25\n1004000000,-0.25\n")]
    public void Read_OtherSeparatorsQuotesAndUnits_AreTaken(string text)
    {
        using var folder = new TestFolder();
        using var source = new CsvColumnsSource(folder.Write("t.csv", text), s_plain);
        Assert.That((source.Format.Channels.Single().RateHz, source.EndTick), Is.EqualTo((250, 2L)));
        Assert.That(ReadAll(source, 1)[0], Is.EqualTo(new[] { (0L, 250), (1, -250) }));
    }

    [Test]
    public void Read_MapWithRateAndCounts_TakesForeignNames()
    {
        using var folder = new TestFolder();
        string path = folder.Write("t.csv", "lead II,pleth\n5,100\n-6,101\n");
        using var source = new CsvColumnsSource(path, new CsvColumnsOptions
        {
            RateHz = 100, Unit = ColumnUnits.Counts, Map = [new ChannelMapping("pleth", ChannelName.Infrared, IsInverted: true), new ChannelMapping("lead II", ChannelName.Ecg)],
        });
        Assert.That(source.Format.Channels.Select(c => (c.Name, c.Polarity)), Is.EqualTo(new[] { (ChannelName.Ecg, 1), (ChannelName.Infrared, -1) }));
        Assert.That(ReadAll(source, 100), Is.EqualTo(new[] { new[] { (0L, 5), (1, -6) }, [(0, 100), (1, 101)] }));
    }

    [Test]
    public void Read_MissingValuesAndJumpsOfTime_AreGaps()
    {
        // 360 Hz with stamps in whole milliseconds: 2.78 ms is told as 2 or 3 ms. Samples 4 to 363 never came.
        using var folder = new TestFolder();
        string path = folder.Write("t.csv", "time_ms,ecg_mv,red_na\n0,0.001,1\n3,,2\n6,0.003,nan\n8,0.004,4\n1011,0.005,5\n1014,0.006,6\n1017,0.007,7\n1019,0.008,8\n");
        using var source = new CsvColumnsSource(path, new CsvColumnsOptions { RateHz = 360 });
        Assert.That(source.EndTick, Is.EqualTo(368));
        Assert.That(ReadAll(source, 7), Is.EqualTo(new[]
        {
            new[] { (0L, 1), (2, 3), (3, 4), (364, 5), (365, 6), (366, 7), (367, 8) },
            [(0, 100), (1, 200), (3, 400), (364, 500), (365, 600), (366, 700), (367, 800)],
        }));
    }

    [TestCase(360, 3600)]
    [TestCase(500, 1000)]
    [TestCase(256, 2600)]
    public void Rate_FromRoundedStampsWithGaps_IsFound(int rateHz, int count)
    {
        using var folder = new TestFolder();
        IEnumerable<string> rows = Enumerable.Range(0, count).Where(i => i % 400 is < 150 or > 180)
            .Select(i => FormattableString.Invariant($"{Math.Round(i * 1000.0 / rateHz)},0"));
        using var source = new CsvColumnsSource(folder.Write("t.csv", "time_ms,ecg\n" + string.Join('\n', rows) + "\n"), s_plain);
        Assert.That((source.Format.Channels[0].RateHz, source.EndTick), Is.EqualTo((rateHz, (long)count)));
    }

    [Test]
    public void Read_OwnChannelFile_TakesSampleNumbers()
    {
        using var folder = new TestFolder();
        string path = folder.Write("ecg.csv", "sample,code,status\n3,7,0\n9,8,0\n");
        using var source = new CsvColumnsSource(path, new CsvColumnsOptions { RateHz = 250, Map = [new ChannelMapping("code", ChannelName.Ecg)] });
        Assert.That(source.EndTick, Is.EqualTo(10));
        Assert.That(ReadAll(source, 4)[0], Is.EqualTo(new[] { (3L, 7), (9, 8) }));
    }

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(4096)]
    public void Read_AnyCut_GivesTheSameSamples(int ticks)
    {
        using var folder = new TestFolder();
        (long, int)[] samples = [.. Enumerable.Range(0, 3000).Where(i => i % 97 > 5).Select(i => ((long)i, (i * 7919 % 4001) - 2000))];
        string path = folder.Write("t.csv", "sample,ecg_counts\n" + string.Concat(samples.Select(s => FormattableString.Invariant($"{s.Item1},{s.Item2}\n"))));
        using var source = new CsvColumnsSource(path, new CsvColumnsOptions { RateHz = 250 });
        Assert.That(ReadAll(source, ticks)[0], Is.EqualTo(samples));
    }

    [Test]
    public void Read_LongFile_AllocatesNothingPerRow()
    {
        using var folder = new TestFolder();
        using (var writer = new StreamWriter(folder["long.csv"]))
        {
            writer.Write("time_s,ecg_mv,red_na\n");
            for (int i = 0; i < 300_000; i++)
            {
                writer.Write(FormattableString.Invariant($"{i * 0.004:0.000},-0.245,{i % 100}\n"));
            }
        }

        using var source = new CsvColumnsSource(folder["long.csv"], s_plain);
        var block = new SampleBlock(source.Format, 250);
        void Minute()
        {
            for (int i = 0; i < 60; i++)
            {
                source.Read(block, source.PositionTick + 250);
            }
        }

        Assert.That(Allocations.Least(Minute), Is.Zero);
    }

    [TestCase("time_s,a,b\n0,1,2\n1,1,2\n", "t.csv: no column is called after a channel (ecg, red, infrared, green, dark, accel_x, accel_y, accel_z); the columns are \"time_s\", \"a\", \"b\"; say which is which, such as --map \"COLUMN=ecg\".")]
    [TestCase("time_s,ecg_mv,ecg_uv\n0,1,2\n1,1,2\n", "t.csv: two columns would be ecg; the columns are")]
    [TestCase("ecg_mv,red_na\n1,2\n", "t.csv: there is no column time_s, time_ms, time_us or time_ns to tell the sampling rate; say which one holds times, such as --map \"COLUMN=time_s\", or add --rate-hz, for example --rate-hz 360.")]
    [TestCase("time_s,ecg_na\n0,1\n1,1\n", "t.csv: column \"ecg_na\" in na cannot be ecg, which has mv, uv, v, counts.")]
    [TestCase("time_s,red\n0,1\n1,1\n", "t.csv: column \"red\" does not say its unit; add --unit na or --unit ua or --unit counts.")]
    [TestCase("time_s,ecg\n0,1\n0.4,1\n0.8,1\n", "t.csv: the times of column time_s give 2.5 Hz; a recording has a whole rate from 1 to 1000000 Hz; resample it, or say the rate with --rate-hz.")]
    [TestCase("time_s,ecg\n0,1\n", "t.csv: there are fewer than two rows after the header; times of at least two are needed to know the rate.")]
    [TestCase("time_s,ecg\n0,1\n0.004,1\n0.004,1\n", "t.csv, line 4, column 1: found \"0.004\"; time_s must be later than in the row before.")]
    [TestCase("time_s,ecg\n0,1\n0.004,1\n0.008,1\n0.014,1\n", "t.csv, line 5, column 1: found \"0.014\"; time_s is 1.5 sampling intervals of 1/250 s after the row before; it must be a whole number of them.")]
    [TestCase("time_s,ecg\n0,1\n0.004,1\n0.008,1\n1e9,1\n", "t.csv, line 5, column 1: found \"1e9\"; time_s lies more than 30000000 s after the first row; a recording may be that long.")]
    [TestCase("time_s,ecg\n0,1\n0.004,1\n1e999,1\n", "t.csv, line 4, column 1: found \"1e999\"; time_s must be a finite number")]
    [TestCase("time_s,ecg\n0,1\n0.004,x\n", "t.csv, line 3, column 7: found \"x\"; ecg must be a finite number")]
    [TestCase("time_s;ecg\n0;1\n0.004;1,5\n", "t.csv, line 3, column 7: found \"1,5\"; ecg must be a finite number with a decimal point")]
    [TestCase("time_s,ecg\n0,1\n0.004,9000\n", "t.csv, line 3, column 7: found \"9000\"; ecg must lie between -8388.608 and 8388.607, which is what codes of 24 bits hold.")]
    [TestCase("time_s,ecg_counts\n0,1\n0.004,1.5\n", "t.csv, line 3, column 7: found \"1.5\"; ecg_counts holds counts, which must be whole numbers.")]
    [TestCase("time_s,ecg\n0,1\n\n0.004,1\n", "t.csv, line 3, column 1: the line is empty")]
    [TestCase("time_s,ecg\n0,1\n0.004\n", "t.csv, line 3: found 1 fields; the header has 2.")]
    [TestCase("0,1\n0.004,2\n", "t.csv, line 1, column 1: found \"0,1\"; the first line must be a header")]
    [TestCase("", "t.csv, line 1: the file is empty")]
    [TestCase("time_s,ecg\n", "there are fewer than two rows after the header")]
    public void Open_WrongFile_IsToldInOneSentence(string text, string message)
    {
        using var folder = new TestFolder();
        string path = folder.Write("t.csv", text);
        InputFileException? mistake = Assert.Throws<InputFileException>(() => new CsvColumnsSource(path, s_plain).Dispose());
        Assert.That(mistake!.Message, Does.Contain(message));
        Assert.That(mistake.Message, Does.Not.Contain('\n'));
    }

    [Test]
    public void Open_RandomBytes_IsAnErrorAndNeverACrash()
    {
        using var folder = new TestFolder();
        var random = new Random(20260302);
        for (int i = 0; i < 300; i++)
        {
            byte[] bytes = new byte[random.Next(200)];
            const string Letters = "time_s,ecg\n0.4-e;\t\"\r#nan91";
            for (int k = 0; k < bytes.Length; k++)
            {
                bytes[k] = (byte)(i % 3 == 0 ? random.Next(256) : Letters[random.Next(Letters.Length)]);
            }

            byte[] all = i % 2 == 0 ? bytes : [.. "time_s,ecg\n0,1\n0.004,2\n"u8, .. bytes];
            File.WriteAllBytes(folder["r.csv"], all);
            try
            {
                using var source = new CsvColumnsSource(folder["r.csv"], s_plain);
                _ = ReadAll(source, 1000, most: 100_000);
            }
            catch (InputFileException e)
            {
                Assert.That(e.Message, Does.StartWith(folder["r.csv"]));
            }
        }
    }

    private static (long Index, int Code)[][] ReadAll(CsvColumnsSource source, int ticks, long most = long.MaxValue)
    {
        var found = source.Format.Channels.Select(_ => new List<(long, int)>()).ToArray();
        var block = new SampleBlock(source.Format, ticks);
        while (source.PositionTick < Math.Min(most, source.EndTick))
        {
            source.Read(block, Math.Min(source.EndTick, source.PositionTick + ticks));
            for (int c = 0; c < found.Length; c++)
            {
                foreach (SampleRun run in block.Channels[c].Runs)
                {
                    for (int k = 0; k < run.Count; k++)
                    {
                        found[c].Add((run.FirstIndex + k, block.Channels[c].Codes[run.Offset + k]));
                    }
                }
            }
        }

        return [.. found.Select(f => f.ToArray())];
    }
}
