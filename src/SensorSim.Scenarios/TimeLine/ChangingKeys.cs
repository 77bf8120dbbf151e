// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>Which keys a scenario may change over time.</summary>
public static class ChangingKeys
{
    /// <summary>Whether a scenario may change a key over time: every live one.</summary>
    /// <param name="key">The key.</param>
    public static bool MayChange(KeyDefinition key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return key.IsLive;
    }
}
