// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses converters that no sensor could have, with the nearest feasible value.</summary>
internal static class ConversionChecks
{
    // Jitter is modelled by the slope between two samples, which a wider one would leave.
    private const double LargestShare = 0.1;

    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        CheckJitter(values, ConversionKeys.Ecg, EcgAmplifierKeys.RateHz, report);
        CheckJitter(values, ConversionKeys.Optics, OpticsKeys.RateHz, report);
        CheckJitter(values, ConversionKeys.Accelerometer, AccelerometerKeys.RateHz, report);
    }

    private static void CheckJitter(KeyValues values, ConversionKeys keys, NumberKey rate, Action<KeyDefinition, string> report)
    {
        double jitter = values[keys.JitterUsRms];
        double most = Math.Floor(LargestShare * 1e6 / values[rate]);
        if (jitter > most)
        {
            report(
                keys.JitterUsRms,
                $"{keys.JitterUsRms.Name} = {Text(jitter)} is more than a tenth of the time between samples at {rate.Name} = {Text(values[rate])}; at most {Text(most)} µs");
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
