// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

public class ColumnCsvSourceTests
{
    [TestCase("")]
    [TestCase("de-DE")]
    [TestCase("tr-TR")]
    public void Read_Millivolts_GivesTheNearestCodes(string culture)
    {
        using var _ = new CultureScope(culture);
        using var folder = new TestFolder();
        string path = folder.Write("ecg.csv", "ecg_mv\n-0.245\n1e-3\n0.0025\n+8388.607\n-8388.608\n\n");
        using var source = new ColumnCsvSource(path, new ColumnCsvOptions { RateHz = 360 });

        // 1 µV a code; 2.5 µV lies between two codes and goes to the even one.
        Assert.That(ReadAll(source, 2), Is.EqualTo(new[] { -245, 1, 2, 8_388_607, -8_388_608 }));
        Assert.That((source.Format.Channels[0].Name, source.Format.Channels[0].RateHz, source.EndTick), Is.EqualTo((ChannelName.Ecg, 360, 5L)));
        Assert.That(source.Format.Channels[0].Physical(-245), Is.EqualTo(-0.245).Within(1e-12));
    }

    [Test]
    public void Read_WindowsLineEndsMarkAndNoLastLineEnd_AreAccepted()
    {
        using var folder = new TestFolder();
        string path = folder.Write("c.csv", "\uFEFFcodes\r\n5\r\n-6\r\n7");
        using var source = new ColumnCsvSource(path, new ColumnCsvOptions { RateHz = 100, Channel = ChannelName.Red, Unit = ColumnUnit.Counts, UnitPerCode = 1 });
        Assert.That(ReadAll(source, 100), Is.EqualTo(new[] { 5, -6, 7 }));
    }

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(4096)]
    public void Read_AnyCut_GivesTheSameCodes(int ticks)
    {
        using var folder = new TestFolder();
        int[] codes = [.. Enumerable.Range(0, 5000).Select(i => (i * 7919 % 4001) - 2000)];
        string path = folder.Write("c.csv", "codes\n" + string.Join('\n', codes) + "\n");
        using var source = new ColumnCsvSource(path, new ColumnCsvOptions { RateHz = 250, Unit = ColumnUnit.Counts });
        Assert.That(ReadAll(source, ticks), Is.EqualTo(codes));
    }

    [Test]
    public void Read_LongFile_AllocatesNothingPerLine()
    {
        using var folder = new TestFolder();
        string path = folder["long.csv"];
        using (var writer = new StreamWriter(path))
        {
            writer.Write("ecg_mv\n");
            for (int i = 0; i < 1_000_000; i++)
            {
                writer.Write(i % 2 == 0 ? "-0.245\n" : "0.1235\n");
            }
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        using var source = new ColumnCsvSource(path, new ColumnCsvOptions { RateHz = 360 });
        var block = new SampleBlock(source.Format, 4096);
        long sum = 0;
        while (source.PositionTick < source.EndTick)
        {
            source.Read(block, Math.Min(source.EndTick, source.PositionTick + 4096));
            foreach (int code in block.Channels[0].Codes)
            {
                sum += code;
            }
        }

        // Buffers of two readers and a block; a single byte per line would already be 2 MB.
        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.LessThan(600_000));
        Assert.That(sum, Is.EqualTo((-245L + 124) * 500_000), "123.5 goes to the even code 124");
    }

    private static int[] ReadAll(ColumnCsvSource source, int ticks)
    {
        var block = new SampleBlock(source.Format, ticks);
        var codes = new List<int>();
        while (source.PositionTick < source.EndTick)
        {
            source.Read(block, Math.Min(source.EndTick, source.PositionTick + ticks));
            codes.AddRange(block.Channels[0].Codes.ToArray());
        }

        return [.. codes];
    }
}
