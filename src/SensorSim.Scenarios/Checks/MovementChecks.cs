// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Body.Movement;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses gaits that nobody walks, with the nearest feasible value.</summary>
internal static class MovementChecks
{
    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        if (!values.Course(MovementKeys.Activity).Words.Any(w => w != "rest"))
        {
            return;
        }

        bool isByHeart = values.IsSet(MovementKeys.CadencePerBeat);
        if (isByHeart && (values.IsSet(MovementKeys.CadenceHz) || values.IsChanging(MovementKeys.CadenceHz)))
        {
            report(MovementKeys.CadencePerBeat, "movement.cadence_per_beat and movement.cadence_hz both set the cadence; leave out one of them");
            return;
        }

        MovementLimits.Cadence(values, out double slowest, out double fastest);
        NumberKey key = isByHeart ? MovementKeys.CadencePerBeat : MovementKeys.CadenceHz;
        string unit = key.Unit.Length == 0 ? "" : $" {key.Unit}";
        if (slowest < MovementLimits.LeastCadenceHz)
        {
            double nearest = isByHeart
                ? Up(MovementLimits.LeastCadenceHz * 60 / values.Course(HeartKeys.RateBpm).Lowest)
                : MovementLimits.LeastCadenceHz;
            report(key, $"{key.Name} gives a cadence of {Text(Nearest(slowest))} Hz while walking or running; {key.Name} at least {Text(nearest)}{unit}");
        }
        else if (fastest > MovementLimits.MostCadenceHz)
        {
            double nearest = isByHeart
                ? Down(MovementLimits.MostCadenceHz * 60 / values.Course(HeartKeys.RateBpm).Highest)
                : MovementLimits.MostCadenceHz;
            report(key, $"{key.Name} gives a cadence of {Text(Nearest(fastest))} Hz; {key.Name} at most {Text(nearest)}{unit}");
        }
        else if (values[MovementKeys.CadenceSpreadHz] > MovementLimits.MostSpreadShare * slowest)
        {
            report(
                MovementKeys.CadenceSpreadHz,
                $"movement.cadence_spread_hz = {Text(values[MovementKeys.CadenceSpreadHz])} is too wide for a cadence of {Text(Nearest(slowest))} Hz; at most a fifth of it, {Text(Down(MovementLimits.MostSpreadShare * slowest))} Hz");
        }
    }

    private static double Nearest(double value) => Math.Round(100 * value) / 100;

    private static double Up(double value) => Math.Ceiling(100 * value) / 100;

    private static double Down(double value) => Math.Floor(100 * value) / 100;

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
