// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Studies.Vectors.Results;

namespace SensorSim.Cli.Options;

/// <summary>The options that say who ran what when.</summary>
internal sealed record RunRecordOptions
{
    private const int Longest = 200;

    /// <summary>Device.</summary>
    public required Option<string?> Device { get; init; }

    /// <summary>Firmware.</summary>
    public required Option<string?> Firmware { get; init; }

    /// <summary>Operator.</summary>
    public required Option<string?> Operator { get; init; }

    /// <summary>Date.</summary>
    public required Option<string?> Date { get; init; }

    /// <summary>Creates the options.</summary>
    public static RunRecordOptions Create() => new()
    {
        Device = Text("--device", "Run record: device that answered"),
        Firmware = Text("--firmware", "Run record: version of its firmware"),
        Operator = Text("--operator", "Run record: who ran it"),
        Date = Text("--date", "Run record: date, as you want it written; none unless given"),
    };

    /// <summary>Reads the options.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="hasOut">Whether there is a folder to write to.</param>
    /// <exception cref="UsageException">A text is too long, or there is nowhere to write it.</exception>
    public RunRecord Read(ParseResult parsed, bool hasOut)
    {
        var record = new RunRecord { Device = Of(Device), Firmware = Of(Firmware), Operator = Of(Operator), Date = Of(Date) };
        return record.IsEmpty || hasOut ? record : throw new UsageException("--device, --firmware, --operator and --date go into a run record; add --out DIR for it");

        string Of(Option<string?> option)
        {
            string text = parsed.GetValue(option) ?? "";
            return text.Length <= Longest && !text.Any(char.IsControl)
                ? text
                : throw new UsageException(FormattableString.Invariant($"{option.Name} must be text on one line, 1 to {Longest} characters"));
        }
    }

    private static Option<string?> Text(string name, string what) => new(name) { Description = what, HelpName = "TEXT" };
}
