// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Sensing.Electrodes;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses filters that leave nothing of the ECG, and electrodes that come off without being there.</summary>
internal static class ElectrodeChecks
{
    private const double HighestShare = 0.45;

    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        double low = values[EcgAmplifierKeys.LowPassHz];
        double high = values[EcgAmplifierKeys.HighPassHz];
        double rate = values[EcgAmplifierKeys.RateHz];
        if (low > HighestShare * rate)
        {
            double most = Math.Floor(10 * HighestShare * rate) / 10;
            report(
                EcgAmplifierKeys.LowPassHz,
                $"ecg_amplifier.low_pass_hz = {Text(low)} is too close to half of the rate of {Text(rate)} Hz; at most {Text(most)} Hz");
        }
        else if (low > 0 && high > 0.5 * low)
        {
            report(
                values.IsSet(EcgAmplifierKeys.HighPassHz) ? EcgAmplifierKeys.HighPassHz : EcgAmplifierKeys.LowPassHz,
                $"ecg_amplifier.high_pass_hz = {Text(high)} leaves nothing below ecg_amplifier.low_pass_hz = {Text(low)}; at most {Text(0.5 * low)} Hz");
        }

        if (values[ElectrodeKeys.Third] == "none" && values.Course(ElectrodeKeys.Off).Words.Contains("third", StringComparer.Ordinal))
        {
            report(
                ElectrodeKeys.Off,
                "electrodes.off = \"third\" needs a third electrode, and electrodes.third = \"none\"; leave out one of them");
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
