// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses settings of the light chain that contradict each other, with the nearest value that fits.</summary>
internal static class OpticsChecks
{
    // A band narrower than this would make the level control hunt: a change of the light of a few per cent steps the current.
    private const double NarrowestBand = 1.2;

    // A sensor that is off the skin for more of the time is none.
    private const double LargestLiftedShare = 0.5;

    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        CheckControl(values, report);
        CheckLiftOffs(values, report);
    }

    private static void CheckControl(KeyValues values, Action<KeyDefinition, string> report)
    {
        if (values[LevelControlKeys.LevelControl] != "on")
        {
            return;
        }

        double low = values[LevelControlKeys.LowPercent];
        double high = values[LevelControlKeys.HighPercent];
        if (high < low * NarrowestBand && values.IsSet(LevelControlKeys.LowPercent))
        {
            report(
                LevelControlKeys.LowPercent,
                $"optics.level_low_percent = {Text(low)} leaves the level control no band below optics.level_high_percent = {Text(high)}; at most {Text(Math.Floor(10 * high / NarrowestBand) / 10)} %");
        }
        else if (high < low * NarrowestBand)
        {
            report(
                LevelControlKeys.HighPercent,
                $"optics.level_high_percent = {Text(high)} leaves the level control no band above optics.level_low_percent = {Text(low)}; at least {Text(Math.Ceiling(10 * low * NarrowestBand) / 10)} %");
        }

        double mostMa = values[LevelControlKeys.MostMa];
        foreach (ChannelName light in OpticalSlots.Order(values).Where(name => name != ChannelName.Dark))
        {
            NumberKey current = OpticalLevels.CurrentKey(light);
            if (values[current] > mostMa)
            {
                report(
                    values.IsSet(current) ? current : LevelControlKeys.MostMa,
                    $"{current.Name} = {Text(values[current])} lies above optics.level_current_ma_max = {Text(mostMa)}, the most that the level control sets; at most {Text(mostMa)} mA");
            }
        }
    }

    private static void CheckLiftOffs(KeyValues values, Action<KeyDefinition, string> report)
    {
        double perHour = values[ContactKeys.LiftOffsPerHour];
        double seconds = values[ContactKeys.LiftOffSeconds];
        if (perHour * seconds > LargestLiftedShare * 3600)
        {
            report(
                ContactKeys.LiftOffsPerHour,
                $"optics.lift_offs_per_h = {Text(perHour)} of {Text(seconds)} s each would lift the sensor for more than half of the time; at most {Text(Math.Floor(LargestLiftedShare * 3600 / seconds))} an hour");
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
