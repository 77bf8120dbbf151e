// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Writing;

namespace SensorSim.Studies.Challenges;

/// <summary>What a challenge found, in words and as a scenario.</summary>
public static class ChallengeText
{
    /// <summary>The scenario that breaks the requirement, with what it is on its first lines.</summary>
    /// <param name="result">A result in which something broke.</param>
    /// <param name="folder">Folder that the text is meant for.</param>
    public static string Scenario(ChallengeResult result, string folder)
    {
        ArgumentNullException.ThrowIfNull(result);
        Scenario broken = result.Broken ?? throw new ArgumentException("Nothing broke.", nameof(result));
        return ScenarioText.Write(broken, folder,
        [
            "The mildest input found that breaks a requirement; `sensorsim run` makes the failure again.",
            .. Sentences(result),
            Invariant($"Seed {broken.Seed}, generator version {Scenarios.Scenario.GeneratorVersion}, detector {result.Detector}."),
        ]);
    }

    /// <summary>The moment of failure as a text of its own.</summary>
    /// <param name="result">A result in which something broke.</param>
    public static string Moment(ChallengeResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        Moment moment = result.Moment ?? throw new ArgumentException("Nothing broke.", nameof(result));
        return $"{Invariant($"at {moment.TimeS:0.000} s (body time)")}: {moment.What}\n";
    }

    /// <summary>What broke, or what was tried in vain; a sentence each.</summary>
    /// <param name="result">The result.</param>
    public static IReadOnlyList<string> Sentences(ChallengeResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (result.Found is not Trial found)
        {
            string harshest = result.HarshestHeld is ChallengeInput held
                ? $"the harshest that held ({Number(held.Harshness)}): {Disturbances(held, result.Scenario)}"
                : "none held";
            return [$"Nothing broke in {result.RunCount} {(result.RunCount == 1 ? "run" : "runs")} of {result.InputCount} {(result.InputCount == 1 ? "input" : "inputs")}; {harshest}."];
        }

        var sentences = new List<string> { What(found.Breach!) };
        if (result.Settings.CheckSeeds > 0)
        {
            sentences.Add($"So it does on {found.CheckBroken} of {found.CheckRuns} further seeds.");
        }

        if (result.AtFullLength is Trial full && full.Input.DurationS != found.Input.DurationS)
        {
            string seeds = result.Settings.CheckSeeds > 0 ? $", and breaks on {full.CheckBroken} of {full.CheckRuns} further seeds" : "";
            string figure = full.Breach!.Figure is double actual ? $"it reaches {Number(actual)}" : "it fails as well";
            sentences.Add($"At the full length of {Number(full.Input.DurationS)} s, by which harshness is judged, {figure}{seeds}; {Number(found.Input.DurationS)} s are enough to show it.");
        }

        sentences.Add(found.Input.Disturbances.Count == 0
            ? "The scenario itself breaks it; nothing was turned up."
            : $"Harshness {Number(found.Input.Harshness)}: {Disturbances(found.Input, result.Scenario)}.");
        return sentences;
    }

    /// <summary>What a disturbance brings along, as the end of a sentence; empty when that is nothing.</summary>
    /// <param name="disturbance">The disturbance.</param>
    /// <param name="input">Its input.</param>
    /// <param name="scenario">The scenario that the challenge began with.</param>
    public static string Along(Disturbance disturbance, ChallengeInput input, Scenario scenario)
    {
        ArgumentNullException.ThrowIfNull(input);
        string[] along = [.. input.AlongWith(disturbance, scenario).Select(a => $"{a.Key.Name} = {a.Text}")];
        return along.Length == 0 ? "" : $", along with {string.Join(" and ", along)}";
    }

    private static string What(Breach breach)
    {
        if (breach.Limit is not double limit)
        {
            return "The detector does not answer: it is silent, gives too many marks, or fails.";
        }

        string figure = breach.Figure is double actual ? Number(actual) : "undefined";
        return $"{breach.Requirement} = {Number(limit)} is broken: {breach.Subject} reaches {figure}.";
    }

    private static string Disturbances(ChallengeInput input, Scenario scenario) => input.Disturbances.Count == 0
        ? "the scenario itself"
        : string.Join("; ", input.Disturbances.Select(d =>
        {
            KnobRange range = input.RangeOf(d);
            return $"{range.Knob.Key.Name} = {Number(d.Value)} {range.Knob.Key.Unit}".TrimEnd()
                + $" ({Number(Math.Round(100 * range.LevelOf(d.Value)))} % of the way from {Number(range.From)} to {Number(range.Knob.Harsh)}){Along(d, input, scenario)}";
        }));

    private static string Number(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
