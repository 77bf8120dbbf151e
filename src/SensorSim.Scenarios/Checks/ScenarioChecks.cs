// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Body.Breathing;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Time;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses values that are each allowed but contradict each other.</summary>
internal static class ScenarioChecks
{
    /// <summary>RR interval that three standard deviations of variability must leave [ms].</summary>
    public const double ShortestRrMs = 240;

    /// <summary>How many spreads must fit into the mean arrival: normal draws reach 6.34 standard deviations.</summary>
    public const double ArrivalSpreads = 6.4;

    /// <summary>How many spreads must fit into the breathing rate.</summary>
    public const double BreathingSpreads = 4;

    /// <summary>Reports every contradiction.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="report">Takes the key at fault and a sentence with the nearest feasible value.</param>
    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        CheckSlots(values, report);
        CheckVariability(values, report);
        CheckClock(values, report);
        CheckArrival(values, report);
        CheckBreathing(values, report);
        RhythmChecks.Check(values, report);
        PulseChecks.Check(values, report);
        MovementChecks.Check(values, report);
        OpticsChecks.Check(values, report);
        ConversionChecks.Check(values, report);
        DataPathChecks.Check(values, report);
        ClockChecks.Check(values, report);
        AmbientChecks.Check(values, report);
        ElectrodeChecks.Check(values, report);
        RecordingChecks.Check(values, report);
    }

    // No draw may put a foot before its R peak: normal draws reach 6.34 standard deviations.
    private static void CheckArrival(KeyValues values, Action<KeyDefinition, string> report)
    {
        if (values[ArrivalKeys.From] != "knob")
        {
            return;
        }

        double arrival = values[PulseKeys.ArrivalMs];
        double spread = values[PulseKeys.ArrivalSpreadMs];
        double most = Math.Floor(10 * arrival / ArrivalSpreads) / 10;
        if (spread > most)
        {
            report(
                values.IsSet(PulseKeys.ArrivalSpreadMs) ? PulseKeys.ArrivalSpreadMs : PulseKeys.ArrivalMs,
                $"pulse.arrival_spread_ms = {Text(spread)} would put feet before their R peak at pulse.arrival_ms = {Text(arrival)}; at most {Text(most)} ms");
        }
    }

    // A breathing rate that wanders through zero would run backwards.
    private static void CheckBreathing(KeyValues values, Action<KeyDefinition, string> report)
    {
        double rate = values[BreathingKeys.RatePerMin];
        double spread = values[BreathingKeys.SpreadPerMin];
        if (spread > rate / BreathingSpreads)
        {
            report(
                values.IsSet(BreathingKeys.SpreadPerMin) ? BreathingKeys.SpreadPerMin : BreathingKeys.RatePerMin,
                $"breathing.spread_per_min = {Text(spread)} is too wide for breathing.rate_per_min = {Text(rate)}; at most a quarter of it, {Text(rate / BreathingSpreads)}");
        }
    }

    private static void CheckSlots(KeyValues values, Action<KeyDefinition, string> report)
    {
        double spacing = values[OpticsKeys.SlotSpacingUs];
        double window = values[OpticsKeys.IntegrationUs];
        double period = 1e6 / values[OpticsKeys.RateHz];
        int slots = OpticalSlots.Order(values).Count;
        string words = slots == 4 ? "four slots do" : "three slots do";
        if (window > spacing && values.IsSet(OpticsKeys.SlotSpacingUs) && !values.IsSet(OpticsKeys.IntegrationUs))
        {
            report(OpticsKeys.SlotSpacingUs, $"optics.slot_spacing_us = {Text(spacing)} is shorter than the integration time; at least {Text(window)} µs fit");
        }
        else if (window > spacing)
        {
            report(OpticsKeys.IntegrationUs, $"optics.integration_us = {Text(window)} is longer than the slot spacing; at most {Text(spacing)} µs fit");
        }
        else if (slots * window > period)
        {
            report(
                OpticsKeys.IntegrationUs,
                $"optics.integration_us = {Text(window)}: {words} not fit into one sample of {Text(Math.Round(period))} µs; at most {Text(Math.Floor(period / slots))} µs");
        }
        else if (((slots - 1) * spacing) + window > period)
        {
            report(
                OpticsKeys.SlotSpacingUs,
                $"optics.slot_spacing_us = {Text(spacing)}: {words} not fit into one sample of {Text(Math.Round(period))} µs; at most {Text(Math.Floor((period - window) / (slots - 1)))} µs");
        }
    }

    // Three standard deviations of variability must leave a possible RR interval, else the rhythm would be cut off.
    private static void CheckVariability(KeyValues values, Action<KeyDefinition, string> report)
    {
        double meanMs = 60000 / values[HeartKeys.RateBpm];
        double respiratory = values[HeartKeys.RespiratoryVariabilityMs];
        double slow = values[HeartKeys.SlowVariabilityMs];
        double drift = values[HeartKeys.DriftVariabilityMs];
        double room = Math.Max(0, meanMs - ShortestRrMs) / 3;
        if (values.IsSet(HeartKeys.SdnnMs))
        {
            if (values[HeartKeys.SdnnMs] > room)
            {
                report(
                    HeartKeys.SdnnMs,
                    $"heart.sdnn_ms = {Text(values[HeartKeys.SdnnMs])} is too much at {Text(values[HeartKeys.RateBpm])} bpm; at most {Text(Math.Floor(room))} ms leave every RR above {Text(ShortestRrMs)} ms");
            }

            return;
        }

        double sum = Math.Sqrt((respiratory * respiratory) + (slow * slow) + (drift * drift));
        if (sum > room)
        {
            // The largest band that is set can give way most.
            NumberKey? band = new[] { HeartKeys.RespiratoryVariabilityMs, HeartKeys.SlowVariabilityMs, HeartKeys.DriftVariabilityMs }
                .Where(values.IsSet).MaxBy(k => values[k]);
            report(
                band ?? HeartKeys.RateBpm,
                $"RR variability of {Text(Math.Round(sum))} ms in all is too much at {Text(values[HeartKeys.RateBpm])} bpm; at most {Text(Math.Floor(room))} ms (root of the sum of squares of all bands) leave every RR above {Text(ShortestRrMs)} ms");
        }
    }

    private static void CheckClock(KeyValues values, Action<KeyDefinition, string> report)
    {
        int ecg = (int)values[EcgAmplifierKeys.RateHz];
        int optics = (int)values[OpticsKeys.RateHz];
        int accelerometer = (int)values[AccelerometerKeys.RateHz];
        try
        {
            TickClock.FromRates([ecg, optics, accelerometer]);
        }
        catch (Exception e) when (e is ArgumentOutOfRangeException or OverflowException)
        {
            report(
                EcgAmplifierKeys.RateHz,
                $"the rates {ecg}, {optics} and {accelerometer} Hz have a common multiple above 1 GHz; choose rates with common factors");
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
