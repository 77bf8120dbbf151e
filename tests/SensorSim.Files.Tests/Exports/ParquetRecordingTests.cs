// SPDX-License-Identifier: MIT
using ParquetSharp;
using SensorSim.Files.Exports;
using SensorSim.Files.Output;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests.Exports;

/// <summary>Parquet files read back by a reader of another make (ParquetSharp, on Apache Arrow's C++ implementation of the format).</summary>
[TestFixture]
public sealed class ParquetRecordingTests
{
    private static readonly RecordingFacts s_facts = new() { Title = "two channels", Seed = 7, GeneratorVersion = 3 };

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(4096)]
    public void Write_AnyCut_HoldsEverySampleAndItsPhysicalValue(int ticks)
    {
        using var folder = new TestFolder();
        SampleRecording.Write(folder["rec"], ticks, (o, f) => new ParquetRecordingWriter(o, f, s_facts));

        for (int c = 0; c < 2; c++)
        {
            ChannelFormat channel = Streams.Format().Channels[c];
            using var file = new ParquetFileReader(folder[$"rec/{channel.Name.Text()}.parquet"]);
            Assert.That(Column<long>(file, 0), Is.EqualTo(SampleRecording.Expected(c).Select(s => s.Index)));
            Assert.That(Column<int>(file, 1), Is.EqualTo(SampleRecording.Expected(c).Select(s => s.Code)));
            Assert.That(Column<int>(file, 2), Is.EqualTo(SampleRecording.Expected(c).Select(s => (int)s.Status)));

            // The scale as docs/files.md states it, not the product's own function.
            Assert.That(Column<double>(file, 3), Is.EqualTo(SampleRecording.Expected(c).Select(s => (s.Code - (c == 0 ? 0 : 7)) * (c == 0 ? 0.1 / 3 : -0.03125))).Within(1e-9));
        }
    }

    [Test]
    public void Metadata_SaysUnitRateSeedAndVersion()
    {
        using var folder = new TestFolder();
        SampleRecording.Write(folder["rec"], 500, (o, f) => new ParquetRecordingWriter(o, f, s_facts));
        using var file = new ParquetFileReader(folder["rec/infrared.parquet"]);
        IReadOnlyDictionary<string, string> said = file.FileMetaData.KeyValueMetadata;

        foreach ((string key, string value) in new[]
        {
            ("schema_version", "1"), ("title", "two channels"), ("seed", "7"), ("generator_version", "3"), ("channel", "infrared"), ("device", "finger_1"), ("rate_hz", "100"),
            ("bits", "19"), ("signed", "0"), ("unit", "nA"), ("unit_per_code", "0.03125"), ("zero_code", "7"), ("polarity", "-1"), ("declared_delay_ns", "-3000000"),
            ("ticks_per_second", "500"), ("end_tick", "2501"),
        })
        {
            Assert.That(said.GetValueOrDefault(key), Is.EqualTo(value), key);
        }

        Assert.That(Enumerable.Range(0, 4).Select(i => file.FileMetaData.Schema.Column(i).Name), Is.EqualTo(new[] { "sample", "code", "status", "value_na" }));
    }

    [Test]
    public void Write_MoreThanAGroup_KeepsOrderAndMakesGroups()
    {
        using var folder = new TestFolder();
        const int Rows = (2 * ParquetChannel.RowsOfGroup) + 5;
        StreamFormat format = Streams.Format();
        using (var output = new OutputFolder(folder["rec"]))
        using (var writer = new ParquetRecordingWriter(output, format, s_facts))
        {
            var block = new SampleBlock(format, 1000);
            for (long at = 0; at < Rows; at += 500)
            {
                block.Begin(2 * at, 2 * Math.Min(Rows, at + 500));
                int count = (int)Math.Min(500, Rows - at);
                block.Channels[0].Append(at, count, out Span<int> codes, out _);
                for (int i = 0; i < count; i++)
                {
                    codes[i] = (int)((at + i) % 1000);
                }

                writer.Write(block);
            }

            writer.Complete();
            output.Commit();
        }

        using var file = new ParquetFileReader(folder["rec/ecg.parquet"]);
        using var empty = new ParquetFileReader(folder["rec/infrared.parquet"]);
        Assert.That((file.FileMetaData.NumRowGroups, file.FileMetaData.NumRows, empty.FileMetaData.NumRows), Is.EqualTo((3, (long)Rows, 0L)));
        Assert.That(Column<int>(file, 1), Is.EqualTo(Enumerable.Range(0, Rows).Select(i => i % 1000)));
    }

    [Test]
    public void Write_TwiceTheSame_GivesTheSameBytes()
    {
        using var folder = new TestFolder();
        SampleRecording.Write(folder["a"], 17, (o, f) => new ParquetRecordingWriter(o, f, s_facts));
        SampleRecording.Write(folder["b"], 500, (o, f) => new ParquetRecordingWriter(o, f, s_facts));
        Assert.That(File.ReadAllBytes(folder["b/ecg.parquet"]), Is.EqualTo(File.ReadAllBytes(folder["a/ecg.parquet"])));
    }

    private static T[] Column<T>(ParquetFileReader file, int column)
    {
        var all = new List<T>();
        for (int g = 0; g < file.FileMetaData.NumRowGroups; g++)
        {
            using RowGroupReader group = file.RowGroup(g);
            using ColumnReader reader = group.Column(column);
            using LogicalColumnReader<T> logical = reader.LogicalReader<T>();
            all.AddRange(logical.ReadAll((int)group.MetaData.NumRows));
        }

        return [.. all];
    }
}
