// SPDX-License-Identifier: MIT
using SensorSim.Cli.Output;
using SensorSim.Studies.Installation;

namespace SensorSim.Cli.SelfTests;

/// <summary>The checks of an installation as a table.</summary>
internal static class SelfTestTable
{
    /// <summary>Prints it.</summary>
    public static void Print(TextWriter writer, IReadOnlyList<CheckOutcome> outcomes)
    {
        PlainTables.Print(writer, ["check", "result", "found", "proves"], outcomes.Select(o => new[] { o.Name, InstallationReport.Word(o), o.Finding.Detail, o.Proves }));
        writer.WriteLine();
        int failed = outcomes.Count(o => !o.HasPassed);
        writer.WriteLine(failed == 0
            ? $"{outcomes.Count} checks passed: the command works here as it did where it was made"
            : $"{failed} of {outcomes.Count} checks failed: do not use this installation until they pass");
    }
}
