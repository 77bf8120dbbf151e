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

    private static readonly KeyDefinition[] s_transit =
    [
        ArteryKeys.PathM, ArteryKeys.ElasticModulusKpa, PressureKeys.DiastolicMmhg, ArteryKeys.WallMm, ArteryKeys.DiameterMm, ArteryKeys.ZetaPerMmhg,
        PressureKeys.PulsePressureMmhg,
    ];

    private static readonly KeyDefinition[] s_ejection =
    [
        PulseKeys.ArrivalMs, EjectionKeys.PepMs, EjectionKeys.ContractilityMs, EjectionKeys.PepSlopeMsPerBpm, EjectionKeys.PepVariationMs,
    ];

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
                    Array.Find(s_transit, k => values.IsSet(k) || values.IsChanging(k)) ?? ArrivalKeys.From,
                    $"pressure and artery give a transit time of {Text(Math.Round(wrong))} ms, outside of {Text(ShortestTransitMs)} to {Text(LongestTransitMs)} ms; {NearestPath(values, shortest, longest)}");
            }

            return;
        }

        double least = Math.Ceiling(ArrivalLimits.LeastArrivalMs(values));
        double arrival = ArrivalLimits.LowestArrivalMs(values);
        if (arrival < least)
        {
            // Down to its floor the pre-ejection period gives what the arrival lacks, ms for ms.
            double pep = Math.Floor(values.Course(EjectionKeys.PepMs).Highest - (ArrivalLimits.LeastArrivalMs(values) - arrival));
            string way = pep >= EjectionKeys.PepMs.Minimum ? $", or ejection.pep_ms at most {Text(pep)} ms" : "";
            report(
                Array.Find(s_ejection, k => values.IsSet(k) || values.IsChanging(k)) ?? PulseKeys.ArrivalMs,
                $"pulse.arrival_ms = {Text(arrival)} leaves no transit time after a pre-ejection period of up to {Text(Math.Round(ArrivalLimits.LongestPepMs(values)))} ms; at least {Text(least)} ms{way}");
        }
    }

    // The transit time is proportional to the path, so the path that fits is known; pressures and walls that differ too much over time have none.
    private static string NearestPath(KeyValues values, double shortestMs, double longestMs)
    {
        double path = ArterialPath.Metres(values);
        double least = Math.Ceiling(100 * path * ShortestTransitMs / shortestMs) / 100;
        double most = Math.Floor(100 * path * LongestTransitMs / longestMs) / 100;
        bool isPossible = least <= most && least <= ArteryKeys.PathM.Maximum && most >= ArteryKeys.PathM.Minimum;
        return !isPossible ? "change artery.elastic_modulus_kpa or pressure.diastolic_mmhg, for no artery.path_m fits"
            : shortestMs < ShortestTransitMs ? $"artery.path_m at least {Text(least)} m"
            : $"artery.path_m at most {Text(most)} m";
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
