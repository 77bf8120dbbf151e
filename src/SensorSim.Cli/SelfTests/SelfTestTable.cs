// SPDX-License-Identifier: MIT
using SensorSim.Cli.Output;
using SensorSim.Studies.Installation;

namespace SensorSim.Cli.SelfTests;

/// <summary>The checks of an installation as a table: a line for what was found, then what a check proves.</summary>
internal static class SelfTestTable
{
    // With the names of checks and their results before it the table stays below 110 columns.
    private const int TextWidth = 76;

    /// <summary>Prints it.</summary>
    public static void Print(TextWriter writer, IReadOnlyList<CheckOutcome> outcomes)
    {
        PlainTables.Print(writer, ["check", "result", "found, and what the check proves"], outcomes.SelectMany(Rows));
        writer.WriteLine();
        int failed = outcomes.Count(o => !o.HasPassed);
        writer.WriteLine(failed == 0
            ? $"{outcomes.Count} checks passed: the command works here as it did where it was made"
            : $"{failed} of {outcomes.Count} checks failed: do not use this installation until they pass");
    }

    // What was found stays on the line of its check, whatever is in it: it is looked for by name.
    private static IEnumerable<string[]> Rows(CheckOutcome outcome) =>
    [
        [outcome.Name, InstallationReport.Word(outcome), outcome.Finding.Detail],
        .. Wrapped($"proves: {outcome.Proves}").Select(line => new[] { "", "", line }),
    ];

    private static IEnumerable<string> Wrapped(string text)
    {
        string line = "";
        foreach (string word in text.Split(' '))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > TextWidth)
            {
                yield return line;
                line = "        " + word;
            }
            else
            {
                line += line.Length == 0 ? word : " " + word;
            }
        }

        yield return line;
    }
}
