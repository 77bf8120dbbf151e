// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses recorded noise without a level, and a level without a recording.</summary>
internal static class RecordingChecks
{
    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        foreach ((TextKey file, TextKey label, NumberKey rate, NumberKey level, NumberKey ratio) in Recordings.Recordings.Keys)
        {
            bool hasRatio = values.IsSet(ratio) || values.IsChanging(ratio);
            bool hasLevel = values[level] != 0 || values.IsChanging(level) || hasRatio;
            if (values.IsSet(file) && !hasLevel && !values.IsSet(level))
            {
                report(file, $"{file.Name} is heard of only with a level; set {level.Name} or {ratio.Name}");
            }

            if (!values.IsSet(file) && hasLevel)
            {
                NumberKey wanted = hasRatio ? ratio : level;
                report(wanted, $"{wanted.Name} needs a recording; set {file.Name}, or leave out {wanted.Name}");
            }

            if (!values.IsSet(file) && values.IsSet(label))
            {
                report(label, $"{label.Name} needs a recording; set {file.Name}, or leave out {label.Name}");
            }

            if (!values.IsSet(file) && values.IsSet(rate))
            {
                report(rate, $"{rate.Name} needs a recording; set {file.Name}, or leave out {rate.Name}");
            }
        }
    }
}
