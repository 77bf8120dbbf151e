// SPDX-License-Identifier: MIT
using SensorSim.Cli.Output;

namespace SensorSim.Cli.Tests;

/// <summary>Tables of plain text: columns stand under their heads, whatever is written in them, nothing is cut off, and no line ends in blanks.</summary>
[TestFixture]
public sealed class PlainTablesTests
{
    [Test]
    public void Print_LeftAndRight_StandUnderTheirHeads() => Assert.That(Lines(Printed(["name", "count>"], ["r_peak", "56"], ["foot", "1234567"])), Is.EqualTo(new[]
    {
        "  name       count",
        "────────────────────",
        "  r_peak        56",
        "  foot     1234567",
    }));

    [Test]
    public void PrintApart_Table_StandsBetweenTwoEmptyLines()
    {
        using var writer = new StringWriter { NewLine = "\n" };
        PlainTables.PrintApart(writer, ["a"], [["b"]]);

        Assert.That(Lines(writer.ToString()), Is.EqualTo(new[] { "", "  a", "─────", "  b", "" }));
    }

    [Test]
    public void Print_LongCells_AreNotCutOff()
    {
        string cell = new('x', 300);

        Assert.That(Lines(Printed(["a", "b"], [cell, "end"]))[2], Is.EqualTo($"  {cell}   end"));
    }

    // Signs of East Asia are two places wide on a terminal, an accent that is a sign of its own none.
    [TestCase("心拍", 4)]
    [TestCase("re\u0301pos", 5)]
    [TestCase("µV ±", 4)]
    public void Print_OtherSigns_TakeTheirPlaces(string cell, int places)
    {
        string line = Lines(Printed(["12345678", "b"], [cell, "end"]))[2];

        Assert.That(line, Is.EqualTo($"  {cell}{new string(' ', 8 - places)}   end"));
    }

    private static string Printed(string[] columns, params string[][] rows)
    {
        using var writer = new StringWriter { NewLine = "\n" };
        PlainTables.Print(writer, columns, rows);
        return writer.ToString();
    }

    private static string[] Lines(string text) => text.Split('\n')[..^1];
}
