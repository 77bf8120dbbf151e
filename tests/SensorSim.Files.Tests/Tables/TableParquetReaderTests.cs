// SPDX-License-Identifier: MIT
using SensorSim.Files.Tables;

namespace SensorSim.Files.Tests.Tables;

/// <summary>Tables read back from Parquet; the writer is held to a reader of another make in <see cref="TableTests"/>.</summary>
[TestFixture]
public sealed class TableParquetReaderTests
{
    private static readonly long?[] s_whole = [long.MinValue, null, long.MaxValue];
    private static readonly decimal?[] s_long = [-9999999999999999999999999999m, 9999999999999999999999999999m, null];
    private static readonly double?[] s_real = [0.1, double.Epsilon, null];
    private static readonly string[] s_text = ["plain", "", "a, \"b\"\nµ"];

    [Test]
    public void Read_EveryKindOfColumn_IsWhatWasWritten()
    {
        (ColumnTable table, IReadOnlyDictionary<string, string> metadata) = Back(Bytes(3,
        [
            new WholeColumn("run", "", i => s_whole[i]),
            new LongWholeColumn("squares_ns2", "ns²", i => s_long[i]),
            new RealColumn("level_db", "dB", i => s_real[i]),
            new TextColumn("detector", i => s_text[i]),
        ]));
        Assert.That(table.Columns.Select(c => (c.Name, c.Unit)), Is.EqualTo(new[] { ("run", ""), ("squares_ns2", "ns²"), ("level_db", "dB"), ("detector", "") }));
        Assert.That(Enumerable.Range(0, 3).Select(((WholeColumn)table.Columns[0]).At), Is.EqualTo(s_whole));
        Assert.That(Enumerable.Range(0, 3).Select(((LongWholeColumn)table.Columns[1]).At), Is.EqualTo(s_long));
        Assert.That(Enumerable.Range(0, 3).Select(((RealColumn)table.Columns[2]).At), Is.EqualTo(s_real));
        Assert.That(Enumerable.Range(0, 3).Select(((TextColumn)table.Columns[3]).At), Is.EqualTo(s_text));
        Assert.That(metadata, Is.EqualTo(new Dictionary<string, string> { ["study_identity"] = "abc" }));
    }

    [Test]
    public void Read_MoreRowsThanAGroup_KeepsTheirOrder()
    {
        const int Rows = 65536 + 5;
        (ColumnTable table, _) = Back(Bytes(Rows, [new WholeColumn("run", "", i => i % 7 == 0 ? null : i)]));
        Assert.That(table.RowCount, Is.EqualTo(Rows));
        Assert.That(Enumerable.Range(0, Rows).All(i => ((WholeColumn)table.Columns[0]).At(i) == (i % 7 == 0 ? null : i)), Is.True);
    }

    [Test]
    public void Read_NoRows_IsAnEmptyTable() => Assert.That(Back(Bytes(0, [new WholeColumn("run", "", _ => 1)])).Table.RowCount, Is.Zero);

    [TestCase(0)]
    [TestCase(3)]
    [TestCase(60)]
    public void Read_CutShort_IsRefused(int length)
    {
        byte[] bytes = Bytes(3, [new WholeColumn("run", "", i => i)])[..length];
        using var stream = new MemoryStream(bytes);
        Assert.That(() => TableParquetReader.Read(stream, "runs.parquet"), Throws.InstanceOf<InputFileException>().With.Message.StartsWith("runs.parquet: this is no complete Parquet file"));
    }

    private static byte[] Bytes(int rows, TableColumn[] columns)
    {
        using var stream = new MemoryStream();
        TableParquet.Write(stream, new ColumnTable(rows, columns), new Dictionary<string, string> { ["study_identity"] = "abc" });
        return stream.ToArray();
    }

    private static (ColumnTable Table, IReadOnlyDictionary<string, string> Metadata) Back(byte[] bytes)
    {
        using var stream = new MemoryStream(bytes);
        return TableParquetReader.Read(stream, "runs.parquet");
    }
}
