// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>A key that a scenario sets and that changes nothing in it.</summary>
/// <param name="Key">The key.</param>
/// <param name="Why">Why, and what would bring it in; without a full stop.</param>
public sealed record IdleKey(KeyDefinition Key, string Why)
{
    /// <summary>The whole sentence, without a full stop.</summary>
    public string Sentence => $"{Key.Name} has no effect: {Why}";
}

/// <summary>Finds keys that scale, shape or time something that never happens in a scenario: allowed, but hardly what was meant.</summary>
/// <remarks>
/// Told from the values and their courses alone, and only where neither a sample nor a row of truth can depend on the key. Only keys that the scenario's
/// own file, a study or the command line sets, and to another value than they have anyway: a sensor or a drawn person has properties that a still body never shows.
/// </remarks>
public static class IdleKeys
{
    /// <summary>The keys that change nothing, in a fixed order.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="withUsual">Also those that are set to nothing or to what they have anyway: values of a study are, at some of its points.</param>
    public static IReadOnlyList<IdleKey> Of(Scenario scenario, bool withUsual = false)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        KeyValues values = scenario.Values;
        IEnumerable<(KeyDefinition Key, string Why)> all =
        [
            .. IdleMovementKeys.Of(values), .. IdleElectrodeKeys.Of(values), .. IdleNoiseKeys.Of(values), .. IdleRhythmKeys.Of(values),
            .. IdlePacedKeys.Of(values), .. IdleBodyKeys.Of(scenario), .. IdleAmbientKeys.Of(values), .. IdleSensorKeys.Of(values),
        ];
        return [.. all.Where(k => k.Why.Length > 0 && scenario.Sets(k.Key) && (withUsual || !IsUsual(values, k.Key))).Select(k => new IdleKey(k.Key, k.Why))];
    }

    /// <summary>Why nothing comes of what a key scales or times; empty where something does.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="gate">The key that is 0 where nothing comes of it.</param>
    internal static string Without(KeyValues values, NumberKey gate) => values.Course(gate).IsAlways(0) ? $"{gate.Name} is 0; set it" : "";

    /// <summary>Why nothing comes of what another word would bring in; empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="gate">The fixed key that brings it in.</param>
    /// <param name="wanted">The word that does.</param>
    internal static string Unless(KeyValues values, ChoiceKey gate, string wanted) =>
        values[gate] == wanted ? "" : $"{gate.Name} is \"{values[gate]}\"; set \"{wanted}\"";

    /// <summary>Why nothing comes of a noise, its strength by level or by ratio; empty where something does.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="level">Its level.</param>
    /// <param name="ratio">Its ratio to the signal.</param>
    internal static string WithoutLevel(KeyValues values, NumberKey level, NumberKey ratio) =>
        values.Course(level).IsAlways(0) && !values.IsSet(ratio) && !values.IsChanging(ratio) ? $"neither {level.Name} nor {ratio.Name} is set; set one of them" : "";

    /// <summary>The first reason that there is; empty where there is none.</summary>
    /// <param name="reasons">The reasons.</param>
    internal static string First(params ReadOnlySpan<string> reasons)
    {
        foreach (string reason in reasons)
        {
            if (reason.Length > 0)
            {
                return reason;
            }
        }

        return "";
    }

    // What is set to nothing is meant to do nothing, and who writes down what holds anyway asks for nothing.
    private static bool IsUsual(KeyValues values, KeyDefinition key) => key switch
    {
        NumberKey { HasDefault: true } number => values.Course(number).IsAlways(0) || values.Course(number).IsAlways(number.Default),
        ChoiceKey choice => values[choice] == choice.Default && !values.IsChanging(choice),
        _ => false,
    };
}
