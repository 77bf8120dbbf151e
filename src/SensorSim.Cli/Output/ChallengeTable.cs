// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Studies.Challenges;

namespace SensorSim.Cli.Output;

/// <summary>Prints what a challenge found.</summary>
internal static class ChallengeTable
{
    private const int MostShown = 10;

    /// <summary>Prints it.</summary>
    public static void Print(Terminal terminal, ChallengeResult result)
    {
        foreach (string sentence in ChallengeText.Sentences(result))
        {
            terminal.Out.WriteLine(sentence);
        }

        if (result.Found is not null)
        {
            terminal.Out.Write($"First failure {ChallengeText.Moment(result)}");
            terminal.Out.WriteLine(Invariant($"{result.RunCount} runs of {result.InputCount} inputs, {result.ContradictionCount} of them contradictory; length {result.Found.Input.DurationS} s."));
        }

        Trial[] alone = [.. result.Alone.OfType<Trial>().OrderBy(t => t.Input.Harshness).Take(MostShown)];
        if (alone.Length > 0)
        {
            terminal.Out.WriteLine();
            terminal.Out.WriteLine(Invariant($"What breaks something alone at {result.Scenario.DurationS} s, the mildest first:"));
        }

        foreach (Trial trial in alone)
        {
            Disturbance disturbance = trial.Input.Disturbances[0];
            KnobRange range = trial.Input.RangeOf(disturbance);
            terminal.Out.WriteLine(Invariant($"  {trial.Input.Harshness,6:0.000}  {range.Knob.Name} = {disturbance.Value} {range.Knob.Key.Unit}").TrimEnd()
                + $"{ChallengeText.Along(disturbance, trial.Input, result.Scenario)}: {trial.Breach!.Requirement}");
        }
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
