// SPDX-License-Identifier: MIT
using ParquetSharp;
using SensorSim.Files.Tables;

namespace SensorSim.Files.Tests.Tables;

/// <summary>Tables as text, and as Parquet read back by a reader of another make (ParquetSharp, which wraps Apache Arrow's C++ code).</summary>
[TestFixture]
public sealed class TableTests
{
    private static readonly long?[] s_whole = [long.MinValue, null, long.MaxValue];
    private static readonly decimal?[] s_long = [-9999999999999999999999999999m, 9999999999999999999999999999m, null];
    private static readonly double?[] s_real = [0.1, double.Epsilon, null];
    private static readonly string[] s_text = ["plain", "", "a, \"b\"\nµ"];

    [Test]
    public void Csv_EveryKindOfColumn_IsRfc4180()
    {
        using var stream = new MemoryStream();
        TableCsv.Write(stream, Table);
        Assert.That(System.Text.Encoding.UTF8.GetString(stream.ToArray()), Is.EqualTo(
            "run,squares_ns2,level_db,detector\n"
            + "-9223372036854775808,-9999999999999999999999999999,0.1,plain\n"
            + ",9999999999999999999999999999,5E-324,\n"
            + "9223372036854775807,,,\"a, \"\"b\"\"\nµ\"\n"));
    }

    [TestCase("a,b", "\"a,b\"")]
    [TestCase("a\"b", "\"a\"\"b\"")]
    [TestCase("a\nb", "\"a\nb\"")]
    [TestCase("a\rb", "\"a\rb\"")]
    [TestCase("a; b", "a; b")]
    public void Csv_Text_IsQuotedWhereItMustBe(string text, string expected)
    {
        using var stream = new MemoryStream();
        TableCsv.Write(stream, new ColumnTable(1, [new TextColumn("t", _ => text)]));
        Assert.That(System.Text.Encoding.UTF8.GetString(stream.ToArray()), Is.EqualTo($"t\n{expected}\n"));
    }

    [Test]
    public void Parquet_EveryKindOfColumn_ReadsBackByAnotherReader()
    {
        using var stream = new MemoryStream(Parquet());
        using var reader = new ParquetFileReader(stream);
        Assert.That(Enumerable.Range(0, 4).Select(i => reader.FileMetaData.Schema.Column(i).Name), Is.EqualTo(new[] { "run", "squares_ns2", "level_db", "detector" }));
        using RowGroupReader group = reader.RowGroup(0);
        using (ColumnReader column = group.Column(0))
        {
            Assert.That(column.LogicalReader<long?>().ReadAll(3), Is.EqualTo(s_whole));
        }

        using (ColumnReader column = group.Column(1))
        {
            Assert.That(column.LogicalReader<decimal?>().ReadAll(3), Is.EqualTo(s_long));
        }

        using (ColumnReader column = group.Column(2))
        {
            Assert.That(column.LogicalReader<double?>().ReadAll(3), Is.EqualTo(s_real));
        }

        using (ColumnReader column = group.Column(3))
        {
            Assert.That(column.LogicalReader<string>().ReadAll(3), Is.EqualTo(s_text));
        }
    }

    [Test]
    public void Parquet_Metadata_HoldsUnitsAndWhatWasGiven()
    {
        using var stream = new MemoryStream(Parquet());
        using var reader = new ParquetFileReader(stream);
        Assert.That(
            reader.FileMetaData.KeyValueMetadata,
            Is.SupersetOf(new Dictionary<string, string> { ["study_identity"] = "abc", ["unit.level_db"] = "dB", ["unit.squares_ns2"] = "ns²" }));
    }

    [Test]
    public void Parquet_MoreRowsThanAGroup_KeepsTheirOrder()
    {
        const int Count = 70_000;
        using var stream = new MemoryStream();
        TableParquet.Write(stream, new ColumnTable(Count, [new WholeColumn("run", "", i => i)]), new Dictionary<string, string>());
        stream.Position = 0;
        using var reader = new ParquetFileReader(stream);
        var all = new List<long?>();
        for (int g = 0; g < reader.FileMetaData.NumRowGroups; g++)
        {
            using RowGroupReader group = reader.RowGroup(g);
            using ColumnReader column = group.Column(0);
            all.AddRange(column.LogicalReader<long?>().ReadAll((int)group.MetaData.NumRows));
        }

        Assert.That(all, Is.EqualTo(Enumerable.Range(0, Count).Select(i => (long?)i)));
    }

    [Test]
    public void Parquet_NoRows_IsAFileWithColumns()
    {
        using var stream = new MemoryStream();
        TableParquet.Write(stream, new ColumnTable(0, [new WholeColumn("run", "", _ => 0)]), new Dictionary<string, string>());
        stream.Position = 0;
        using var reader = new ParquetFileReader(stream);
        Assert.That((reader.FileMetaData.NumRows, reader.FileMetaData.NumColumns), Is.EqualTo((0L, 1)));
    }

    [Test]
    public void Parquet_SameTable_GivesTheSameBytes()
    {
        byte[] first = Parquet();
        Assert.That(Parquet(), Is.EqualTo(first));
    }

    [Test]
    public void Write_InfiniteNumber_IsRefused()
    {
        var table = new ColumnTable(1, [new RealColumn("level", "", _ => double.PositiveInfinity)]);
        Assert.That(() => TableCsv.Write(Stream.Null, table), Throws.ArgumentException);
        Assert.That(() => TableParquet.Write(new MemoryStream(), table, new Dictionary<string, string>()), Throws.ArgumentException);
    }

    [Test]
    public void Create_TwoColumnsOfOneName_IsRefused() =>
        Assert.That(() => new ColumnTable(0, [new TextColumn("a", _ => ""), new TextColumn("a", _ => "")]), Throws.ArgumentException);

    private static ColumnTable Table => new(
        3,
        [
            new WholeColumn("run", "", i => s_whole[i]),
            new LongWholeColumn("squares_ns2", "ns²", i => s_long[i]),
            new RealColumn("level_db", "dB", i => s_real[i]),
            new TextColumn("detector", i => s_text[i]),
        ]);

    private static byte[] Parquet()
    {
        using var stream = new MemoryStream();
        TableParquet.Write(stream, Table, new Dictionary<string, string> { ["study_identity"] = "abc" });
        return stream.ToArray();
    }
}
