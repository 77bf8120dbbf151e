// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Studies.Sweeps;

/// <summary>A part of a study's runs, for one of several machines: runs r with r mod <see cref="Count"/> = <see cref="Number"/> − 1.</summary>
/// <param name="Number">Which part, from 1.</param>
/// <param name="Count">Parts in all.</param>
public readonly record struct Shard(int Number, int Count)
{
    /// <summary>Most parts.</summary>
    public const int Most = 10_000;

    /// <summary>The whole study.</summary>
    public static Shard Whole { get; } = new(1, 1);

    /// <summary>Whether it is the whole study.</summary>
    public bool IsWhole => Count == 1;

    /// <summary>Whether a run belongs to it.</summary>
    /// <param name="run">Number of the run.</param>
    public bool Has(long run) => run % Count == Number - 1;

    /// <summary>Runs of it in a study.</summary>
    /// <param name="runCount">Runs of the study.</param>
    public long RunCount(long runCount) => runCount < Number ? 0 : ((runCount - Number) / Count) + 1;

    /// <summary>Reads a text such as <c>2/3</c>.</summary>
    /// <param name="text">The text.</param>
    /// <param name="shard">The part, when the text is one.</param>
    /// <returns>Whether it is one: both whole, 1 ≤ I ≤ N ≤ <see cref="Most"/>.</returns>
    public static bool TryParse(string text, out Shard shard)
    {
        ArgumentNullException.ThrowIfNull(text);
        string[] parts = text.Split('/');
        bool isOne = parts.Length == 2
            & int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            & int.TryParse(parts[^1], NumberStyles.None, CultureInfo.InvariantCulture, out int count)
            && number >= 1 && number <= count && count <= Most;
        shard = isOne ? new Shard(number, count) : default;
        return isOne;
    }

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Number}/{Count}");
}
