// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detection.Pressure;
using SensorSim.Detectors.Choices;
using SensorSim.Links.Frames;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Boards;

/// <summary>What a board is told of sensor, wearer and constants: the same numbers that the library in this program gets.</summary>
internal static class BoardSetup
{
    /// <summary>The items of <c>setup</c>; what keeps its usual value is not among them.</summary>
    /// <param name="calibration">What is known of sensor and wearer; null: nothing.</param>
    /// <param name="constants">Constants that differ from their usual values; null: none.</param>
    /// <exception cref="NotSupportedException">The library could not be told so.</exception>
    public static SetupItem[] Items(DetectorCalibration? calibration, IReadOnlyDictionary<string, double>? constants)
    {
        LibraryOptions usual = LibraryOptions.Default;
        LibraryOptions options = OptionsOf.Calibration(calibration);
        options.Tuning = constants is null ? usual.Tuning : LibraryConstants.Of(constants);
        var items = new List<SetupItem>();
        Add(items, SetupItems.StartS, options.StartS, usual.StartS);
        AddTuning(items, options.Tuning, usual.Tuning);
        AddOxygen(items, calibration?.Oxygen);
        AddPressure(items, options.Pressure);
        AddTrend(items, options.Trend, usual.Trend);
        return [.. items];
    }

    private static void AddTuning(List<SetupItem> items, in Tuning tuning, in Tuning usual)
    {
        Add(items, SetupItems.BeatRefractoryMs, tuning.BeatRefractoryMs, usual.BeatRefractoryMs);
        Add(items, SetupItems.BeatTWaveMs, tuning.BeatTWaveMs, usual.BeatTWaveMs);
        Add(items, SetupItems.BeatThresholdPercent, tuning.BeatThresholdPercent, usual.BeatThresholdPercent);
        Add(items, SetupItems.PulseRefractoryMs, tuning.PulseRefractoryMs, usual.PulseRefractoryMs);
        Add(items, SetupItems.PulseThresholdPercent, tuning.PulseThresholdPercent, usual.PulseThresholdPercent);
        Add(items, SetupItems.GateShutMs, tuning.GateShutMs, usual.GateShutMs);
        Add(items, SetupItems.EcgFaultsToOpen, tuning.EcgFaultsToOpen, usual.EcgFaultsToOpen);
        Add(items, SetupItems.LightFaultsToOpen, tuning.LightFaultsToOpen, usual.LightFaultsToOpen);
        Add(items, SetupItems.Doubt, tuning.Doubt, usual.Doubt);
    }

    private static void AddOxygen(List<SetupItem> items, IReadOnlyList<OxygenPair>? pairs)
    {
        if (pairs is null)
        {
            return;
        }

        // The number first: it empties the usual table.
        items.Add(new SetupItem(SetupItems.OxygenPairs, 0, pairs.Count));
        for (int i = 0; i < pairs.Count; i++)
        {
            (int ratio, int milliPercent) = OptionsOf.Pair(pairs[i]);
            items.Add(new SetupItem(SetupItems.OxygenRatio, (ushort)i, ratio));
            items.Add(new SetupItem(SetupItems.OxygenMilliPercent, (ushort)i, milliPercent));
        }
    }

    private static void AddPressure(List<SetupItem> items, in PressureCalibration pressure)
    {
        if (pressure.Points == 0)
        {
            return;
        }

        items.Add(new SetupItem(SetupItems.PressurePoints, 0, pressure.Points));
        items.Add(new SetupItem(SetupItems.PressureModel, 0, (long)pressure.Model));
        items.Add(new SetupItem(SetupItems.PressureSlopeMilli, 0, pressure.SlopeMilliMmHgPerMs));
        items.Add(new SetupItem(SetupItems.PressureZetaMicro, 0, pressure.ZetaMicroPerMmHg));
        items.Add(new SetupItem(SetupItems.PressureDiastolicSharePermille, 0, pressure.DiastolicSharePermille));
        items.Add(new SetupItem(SetupItems.PressureSystolicPerBpmMilli, 0, pressure.SystolicPerBpmMilli));
        items.Add(new SetupItem(SetupItems.PressureDiastolicPerBpmMilli, 0, pressure.DiastolicPerBpmMilli));
        items.Add(new SetupItem(SetupItems.PressureLongestAgeDays, 0, pressure.LongestAgeDays));
        items.Add(new SetupItem(SetupItems.PressureReachMilli, 0, pressure.ReachMilliMmHg));
        AddCuff(items, 0, pressure.First);
        if (pressure.Points > 1)
        {
            AddCuff(items, 1, pressure.Second);
        }
    }

    private static void AddCuff(List<SetupItem> items, ushort index, in CuffPoint cuff)
    {
        items.Add(new SetupItem(SetupItems.CuffSystolicMilli, index, cuff.SystolicMilli));
        items.Add(new SetupItem(SetupItems.CuffDiastolicMilli, index, cuff.DiastolicMilli));
        items.Add(new SetupItem(SetupItems.CuffArrivalUs, index, cuff.ArrivalUs));
        items.Add(new SetupItem(SetupItems.CuffSpreadUs, index, cuff.SpreadUs));
        items.Add(new SetupItem(SetupItems.CuffRateMilli, index, cuff.RateMilliBpm));
        items.Add(new SetupItem(SetupItems.CuffTimeS, index, cuff.TimeS));
    }

    private static void AddTrend(List<SetupItem> items, in TrendSettings trend, in TrendSettings usual)
    {
        Add(items, SetupItems.TrendAllowance256, trend.Allowance256, usual.Allowance256);
        Add(items, SetupItems.TrendThreshold256, trend.Threshold256, usual.Threshold256);
        Add(items, SetupItems.TrendLearningDays, trend.LearningDays, usual.LearningDays);
        Add(items, SetupItems.TrendFirstSd16, trend.FirstSd16, usual.FirstSd16);
        Add(items, SetupItems.TrendFirstSdDays, trend.FirstSdDays, usual.FirstSdDays);
        Add(items, SetupItems.TrendLeastQuality, trend.LeastQuality, usual.LeastQuality);
        Add(items, SetupItems.TrendPerBpmMilli, trend.PerBpmMilli, usual.PerBpmMilli);
        Add(items, SetupItems.TrendRestMarginBpm, trend.RestMarginBpm, usual.RestMarginBpm);
    }

    private static void Add(List<SetupItem> items, ushort item, long value, long usual)
    {
        if (value != usual)
        {
            items.Add(new SetupItem(item, 0, value));
        }
    }
}
