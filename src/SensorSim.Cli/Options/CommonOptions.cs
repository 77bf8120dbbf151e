// SPDX-License-Identifier: MIT
using System.CommandLine;

namespace SensorSim.Cli.Options;

/// <summary>Options that several verbs share.</summary>
internal static class CommonOptions
{
    /// <summary>Where files go.</summary>
    public static Option<string?> Out(string what) => new("--out")
    {
        Description = what,
        HelpName = "DIR",
    };

    /// <summary>One JSON document instead of a table.</summary>
    public static Option<bool> Json() => new("--json") { Description = "Print one JSON document instead of the table" };

    /// <summary>Seed.</summary>
    public static Option<long?> Seed() => NumberOption.Whole("--seed", "Seed, instead of the scenario's", 0, 9007199254740991);

    /// <summary>Seed of the person.</summary>
    public static Option<long?> SubjectSeed() =>
        NumberOption.Whole("--subject-seed", "Draw a person; each key that the scenario does not set gets the person's value", 0, 9007199254740991);

    /// <summary>Schedule of settings.</summary>
    public static Option<string?> Settings() => new("--settings")
    {
        Description = "Schedule of settings, as a closed loop logs it, in place of the scenario's own",
        HelpName = "FILE",
    };

    /// <summary>Path of a sensor.</summary>
    public static Option<string?> Sensor() => new("--sensor")
    {
        Description = "Sensor file (TOML), instead of the one that the scenario names; what the scenario itself sets stays",
        HelpName = "FILE",
    };

    /// <summary>Path of a calibration.</summary>
    public static Option<string?> Calibration() => new("--calibration")
    {
        Description = "Calibration file (TOML): pressure by a cuff, oxygen table, trend",
        HelpName = "FILE",
    };

    /// <summary>Path of a scenario.</summary>
    public static Argument<string> Scenario() => new("SCENARIO") { Description = "Scenario file (TOML)" };
}
