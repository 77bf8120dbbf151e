// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Subjects;

namespace SensorSim.Cli.Output;

/// <summary>Prints a drawn person: one line a value.</summary>
internal static class SubjectText
{
    /// <summary>Prints it; nothing when nobody was drawn.</summary>
    /// <param name="text">Where to.</param>
    /// <param name="subject">The person.</param>
    public static void Print(TextWriter text, DrawnSubject? subject)
    {
        if (subject is null)
        {
            return;
        }

        text.WriteLine(FormattableString.Invariant($"subject of seed {subject.Seed}:"));
        foreach (DrawnValue value in subject.Values)
        {
            text.WriteLine($"  {value.Key.Name,-36} {value.Text} {value.Key.Unit}".TrimEnd());
        }
    }
}
