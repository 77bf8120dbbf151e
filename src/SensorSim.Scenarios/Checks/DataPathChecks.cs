// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Sensing.Delivery;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses data paths that contradict themselves, with the nearest feasible value.</summary>
internal static class DataPathChecks
{
    private const double LargestBusyShare = 0.5;

    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        Check(values, DataPathKeys.First, report);
        Check(values, DataPathKeys.Second, report);
    }

    private static void Check(KeyValues values, DataPathKeys keys, Action<KeyDefinition, string> report)
    {
        double late = values[keys.LateMs];
        double patience = values[keys.PatienceMs];
        if (patience < late)
        {
            bool isPatience = values.IsSet(keys.PatienceMs);
            report(
                isPatience ? keys.PatienceMs : keys.LateMs,
                $"{keys.PatienceMs.Name} = {Text(patience)} ends before a packet counts as late, {keys.LateMs.Name} = {Text(late)}; "
                + (isPatience ? $"{keys.PatienceMs.Name} at least {Text(late)} ms" : $"{keys.LateMs.Name} at most {Text(patience)} ms"));
        }

        double stall = values[keys.StallMs];
        double busy = values[keys.StallsPerMin] * stall / 60_000;
        if (busy > LargestBusyShare)
        {
            double most = Math.Floor(10 * LargestBusyShare * 60_000 / stall) / 10;
            report(
                values.IsSet(keys.StallsPerMin) ? keys.StallsPerMin : keys.StallMs,
                $"{keys.StallsPerMin.Name} = {Text(values[keys.StallsPerMin])} of {keys.StallMs.Name} = {Text(stall)} keep the processor busy for {Text(Math.Round(100 * busy))} % of the time; at most {Text(most)} a minute");
        }

        double wrap = values[keys.StampWrapS];
        double least = 2e-3 * values[keys.PacketMs];
        if (wrap > 0 && wrap < least)
        {
            report(
                keys.StampWrapS,
                $"{keys.StampWrapS.Name} = {Text(wrap)} would throw away every other packet of {Text(values[keys.PacketMs])} ms; at least {Text(least)} s, or 0 for never");
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
