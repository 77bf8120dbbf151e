// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses arrivals and oxygen that contradict themselves, with the nearest feasible value.</summary>
internal static class PulseChecks
{
    private const double ShortestTransitMs = 20;
    private const double LongestTransitMs = 400;

    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        CheckArrival(values, report);
        CheckOxygen(values, report);
    }

    private static void CheckArrival(KeyValues values, Action<KeyDefinition, string> report)
    {
        if (values[ArrivalKeys.From] == "pressure")
        {
            (double shortest, double longest) = ArrivalLimits.TransitMs(values);
            if (shortest < ShortestTransitMs || longest > LongestTransitMs)
            {
                double wrong = shortest < ShortestTransitMs ? shortest : longest;
                report(
                    Array.Find<KeyDefinition>([ArteryKeys.ElasticModulusKpa, ArteryKeys.PathM, PressureKeys.DiastolicMmhg], values.IsSet) ?? ArrivalKeys.From,
                    $"pressure and artery give a transit time of {Text(Math.Round(wrong))} ms; change artery.path_m, artery.elastic_modulus_kpa or pressure.diastolic_mmhg so that it stays between {Text(ShortestTransitMs)} and {Text(LongestTransitMs)} ms");
            }

            return;
        }

        double least = Math.Ceiling(ArrivalLimits.LeastArrivalMs(values));
        double arrival = ArrivalLimits.LowestArrivalMs(values);
        if (arrival < least)
        {
            report(
                Array.Find<KeyDefinition>([PulseKeys.ArrivalMs, EjectionKeys.PepMs, EjectionKeys.ContractilityMs], k => values.IsSet(k) || values.IsChanging(k)) ?? PulseKeys.ArrivalMs,
                $"pulse.arrival_ms = {Text(arrival)} leaves no transit time after a pre-ejection period of up to {Text(Math.Round(ArrivalLimits.LongestPepMs(values)))} ms; at least {Text(least)} ms, or a smaller ejection.pep_ms");
        }
    }

    private static void CheckOxygen(KeyValues values, Action<KeyDefinition, string> report)
    {
        string wrong = CalibrationTable.Read(values[OxygenKeys.Table], out CalibrationTable table);
        if (wrong.Length > 0)
        {
            report(OxygenKeys.Table, $"oxygen.table: {wrong}");
            return;
        }

        foreach ((KeyDefinition key, string sentence) in OxygenLaws.Conflicts(values))
        {
            report(key, sentence);
        }

        Course saturation = values.Course(OxygenKeys.SaturationPercent);
        if (OxygenLaws.InForce(values) == OxygenLaw.CalibrationTable
            && (saturation.Lowest < table.LowestPercent || saturation.Highest > table.HighestPercent))
        {
            double value = saturation.Lowest < table.LowestPercent ? saturation.Lowest : saturation.Highest;
            report(
                OxygenKeys.SaturationPercent,
                $"oxygen.saturation_percent = {Text(value)} lies outside of the calibration table; {Text(table.LowestPercent)} to {Text(table.HighestPercent)} %, or oxygen.law = \"extinction\"");
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
