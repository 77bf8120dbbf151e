// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Links.Damage;

/// <summary>What is done to frames on purpose: which share of them meets which fault. A frame meets one fault at most.</summary>
public sealed record DamagePlan
{
    /// <summary>Longest time of <see cref="DelayMs"/> and <see cref="StallMs"/> [ms].</summary>
    public const int LongestMs = 60_000;

    private const string Keys = "drop, corrupt, duplicate, delay, reorder, stall (each a share in per cent), delay_ms, stall_ms, direction";

    /// <summary>Frames that do not arrive [%].</summary>
    public double DropPercent { get; init; }

    /// <summary>Frames that arrive damaged: bits turned over, bytes overwritten or lost; the 00 at the end may be hit too [%].</summary>
    public double CorruptPercent { get; init; }

    /// <summary>Frames that arrive twice [%].</summary>
    public double DuplicatePercent { get; init; }

    /// <summary>Frames that come later by <see cref="DelayMs"/>, and all behind them after them [%].</summary>
    public double DelayPercent { get; init; }

    /// <summary>How much later [ms].</summary>
    public int DelayMs { get; init; } = 20;

    /// <summary>Frames that the next one overtakes [%].</summary>
    public double ReorderPercent { get; init; }

    /// <summary>Frames in the middle of which the line falls silent for <see cref="StallMs"/>; nothing is lost [%].</summary>
    public double StallPercent { get; init; }

    /// <summary>How long the line is silent [ms].</summary>
    public int StallMs { get; init; } = 500;

    /// <summary>Which way.</summary>
    public DamageDirection Direction { get; init; } = DamageDirection.Both;

    /// <summary>Seed: the same seed damages the same frames in the same way.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Sum of all shares [%].</summary>
    public double TotalPercent => DropPercent + CorruptPercent + DuplicatePercent + DelayPercent + ReorderPercent + StallPercent;

    /// <summary>Reads a plan from text like <c>drop=1,corrupt=0.5,direction=to-board</c>.</summary>
    /// <param name="text">Pairs with commas between them.</param>
    /// <param name="seed">Seed of the faults.</param>
    /// <exception cref="FormatException">The text is none; the message is one sentence that says what would be right.</exception>
    public static DamagePlan Parse(string text, ulong seed = 1)
    {
        ArgumentNullException.ThrowIfNull(text);
        var plan = new DamagePlan { Seed = seed };
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (string pair in text.Split(',', StringSplitOptions.TrimEntries))
        {
            int sign = pair.IndexOf('=', StringComparison.Ordinal);
            if (sign <= 0)
            {
                throw new FormatException($"\"{pair}\" is no damage: write drop=1 for one per cent; there are {Keys}");
            }

            string key = pair[..sign].TrimEnd();
            if (!seen.Add(key))
            {
                throw new FormatException($"damage {key} is given twice: once is enough");
            }

            plan = plan.With(key, pair[(sign + 1)..].TrimStart());
        }

        return plan.Checked();
    }

    /// <summary>The plan itself when its numbers are in range.</summary>
    /// <exception cref="FormatException">They are not; the message is one sentence.</exception>
    internal DamagePlan Checked()
    {
        foreach (double share in new[] { DropPercent, CorruptPercent, DuplicatePercent, DelayPercent, ReorderPercent, StallPercent })
        {
            if (!(share is >= 0 and <= 100))
            {
                throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"a share of damage is 0 to 100 per cent, not {share}"));
            }
        }

        if (TotalPercent > 100)
        {
            throw new FormatException(string.Create(
                CultureInfo.InvariantCulture, $"all shares of damage together are {TotalPercent:0.###} per cent: 100 at most, since a frame meets one fault"));
        }

        return DelayMs is >= 0 and <= LongestMs && StallMs is >= 0 and <= LongestMs
            ? this
            : throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"delay_ms and stall_ms are 0 to {LongestMs}"));
    }

    private static double Number(string key, string text) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value) && value is >= 0 and <= 100
            ? value
            : throw new FormatException($"damage {key} is a share in per cent, 0 to 100, not \"{text}\"");

    private static int Milliseconds(string key, string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int value) && value <= LongestMs
            ? value
            : throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"damage {key} is whole milliseconds, 0 to {LongestMs}, not \"{text}\""));

    private DamagePlan With(string key, string text) => key switch
    {
        "drop" => this with { DropPercent = Number(key, text) },
        "corrupt" => this with { CorruptPercent = Number(key, text) },
        "duplicate" => this with { DuplicatePercent = Number(key, text) },
        "delay" => this with { DelayPercent = Number(key, text) },
        "reorder" => this with { ReorderPercent = Number(key, text) },
        "stall" => this with { StallPercent = Number(key, text) },
        "delay_ms" => this with { DelayMs = Milliseconds(key, text) },
        "stall_ms" => this with { StallMs = Milliseconds(key, text) },
        "direction" => this with
        {
            Direction = text switch
            {
                "to-board" => DamageDirection.ToBoard,
                "from-board" => DamageDirection.FromBoard,
                "both" => DamageDirection.Both,
                _ => throw new FormatException($"damage direction is to-board, from-board or both, not \"{text}\""),
            },
        },
        _ => throw new FormatException($"there is no damage \"{key}\": there are {Keys}"),
    };
}
