// SPDX-License-Identifier: MIT
using SensorSim.Sensing;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>Which keys a scenario may change over time.</summary>
public static class ChangingKeys
{
    // The sensor's models read their values once: a change would be taken and do nothing.
    private static readonly HashSet<string> s_held = [.. SensingKeys.All.Select(k => k.Name)];

    /// <summary>Whether a change of a key over time is followed; a key that is meant to change but is not followed yet may not.</summary>
    /// <param name="key">The key.</param>
    public static bool MayChange(KeyDefinition key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return key.IsLive && !s_held.Contains(key.Name);
    }

    /// <summary>A key by its name if it is there and may change, else null.</summary>
    /// <typeparam name="T">Kind of the key.</typeparam>
    /// <param name="name">Name such as <c>heart.rate_bpm</c>.</param>
    internal static T? Find<T>(string name)
        where T : KeyDefinition => AllKeys.Find(name) is T key && MayChange(key) ? key : null;
}
