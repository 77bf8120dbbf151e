// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Tables;

/// <summary>A column of a table: a name with the unit in it, and a value for each row.</summary>
public abstract class TableColumn
{
    private protected TableColumn(string name, string unit)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        ArgumentNullException.ThrowIfNull(unit);
        Name = name;
        Unit = unit;
    }

    /// <summary>Name, snake_case, with the unit.</summary>
    public string Name { get; }

    /// <summary>The unit in words or symbols; empty for counts, pure numbers and texts.</summary>
    public string Unit { get; }
}

/// <summary>A column of whole numbers that fit 64 bits.</summary>
/// <param name="name">Name.</param>
/// <param name="unit">Unit.</param>
/// <param name="at">Value in a row; null where there is none.</param>
public sealed class WholeColumn(string name, string unit, Func<int, long?> at) : TableColumn(name, unit)
{
    /// <summary>Value in a row; null where there is none.</summary>
    public Func<int, long?> At { get; } = at;
}

/// <summary>A column of whole numbers of up to 28 digits, such as sums of squares.</summary>
/// <param name="name">Name.</param>
/// <param name="unit">Unit.</param>
/// <param name="at">Value in a row, without decimals; null where there is none.</param>
public sealed class LongWholeColumn(string name, string unit, Func<int, decimal?> at) : TableColumn(name, unit)
{
    /// <summary>Value in a row; null where there is none.</summary>
    public Func<int, decimal?> At { get; } = at;
}

/// <summary>A column of real numbers, all finite.</summary>
/// <param name="name">Name.</param>
/// <param name="unit">Unit.</param>
/// <param name="at">Value in a row; null where there is none.</param>
public sealed class RealColumn(string name, string unit, Func<int, double?> at) : TableColumn(name, unit)
{
    /// <summary>Value in a row; null where there is none.</summary>
    public Func<int, double?> At { get; } = at;
}

/// <summary>A column of texts.</summary>
/// <param name="name">Name.</param>
/// <param name="at">Text in a row; may be empty.</param>
public sealed class TextColumn(string name, Func<int, string> at) : TableColumn(name, "")
{
    /// <summary>Text in a row.</summary>
    public Func<int, string> At { get; } = at;
}
