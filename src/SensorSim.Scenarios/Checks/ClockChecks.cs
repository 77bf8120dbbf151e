// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Sensing;
using SensorSim.Sensing.Devices;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses two devices whose clocks come so far apart that no beat is remembered for both.</summary>
internal static class ClockChecks
{
    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        double first = values[DeviceKeys.First.ClockPpm];
        double second = values[DeviceKeys.Second.ClockPpm];
        double seconds = values[ScenarioKeys.DurationS];
        double apart = Math.Abs(first - second) * 1e-6 * seconds;
        if (values[DeviceKeys.SecondCarries] == "nothing" || apart <= SensorStream.LargestLagSeconds)
        {
            return;
        }

        double most = Math.Floor(10 * SensorStream.LargestLagSeconds / seconds * 1e6) / 10;
        bool isSecond = values.IsSet(DeviceKeys.Second.ClockPpm);
        report(
            isSecond ? DeviceKeys.Second.ClockPpm : DeviceKeys.First.ClockPpm,
            $"{DeviceKeys.First.ClockPpm.Name} = {Text(first)} and {DeviceKeys.Second.ClockPpm.Name} = {Text(second)} come {Text(Math.Round(apart))} s apart in {Text(seconds)} s; "
            + $"at most {Text(SensorStream.LargestLagSeconds)} s, so no more than {Text(most)} ppm between them");
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
