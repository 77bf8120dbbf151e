// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detection.Pressure;
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>One option as the adapter takes it; the numbers stand in library_adapter.h.</summary>
internal readonly record struct OptionItem(int Item, int Index, long Value);

/// <summary>What a run tells the library beside the channels, for both sides.</summary>
internal sealed record TwinOptions(DetectorCalibration? Calibration = null, IReadOnlyDictionary<string, double>? Constants = null)
{
    public LibraryOptions Ours()
    {
        LibraryOptions options = OptionsOf.Calibration(Calibration);
        options.Tuning = Constants is null ? options.Tuning : LibraryConstants.Of(Constants);
        return options;
    }

    public IEnumerable<OptionItem> Items()
    {
        LibraryOptions options = Ours();
        Tuning tuning = options.Tuning;
        PressureCalibration p = options.Pressure;
        SensorSim.Detection.Pressure.TrendSettings t = options.Trend;
        IEnumerable<OptionItem> oxygen = (Calibration?.Oxygen ?? []).SelectMany((pair, i) => new OptionItem[]
        {
            new(0x20, i, (long)Math.Round(pair.Ratio * 10_000)),
            new(0x21, i, (long)Math.Round(pair.SaturationPercent * 1000)),
        });
        return
        [
            new(0x01, 0, options.StartS),
            .. Fields(
                0x10, tuning.BeatRefractoryMs, tuning.BeatTWaveMs, tuning.BeatThresholdPercent, tuning.PulseRefractoryMs, tuning.PulseThresholdPercent, tuning.GateShutMs,
                tuning.EcgFaultsToOpen, tuning.LightFaultsToOpen, tuning.Doubt),
            .. oxygen,
            .. Fields(
                0x30, (long)p.Model, p.Points, p.SlopeMilliMmHgPerMs, p.ZetaMicroPerMmHg, p.DiastolicSharePermille, p.SystolicPerBpmMilli, p.DiastolicPerBpmMilli,
                p.LongestAgeDays, p.ReachMilliMmHg),
            .. Cuff(0x31, p.First),
            .. Cuff(0x32, p.Second),
            .. Fields(0x40, t.Allowance256, t.Threshold256, t.LearningDays, t.FirstSd16, t.FirstSdDays, t.LeastQuality, t.PerBpmMilli, t.RestMarginBpm),
        ];
    }

    private static IEnumerable<OptionItem> Cuff(int item, CuffPoint c) =>
        Fields(item, c.SystolicMilli, c.DiastolicMilli, c.ArrivalUs, c.SpreadUs, c.RateMilliBpm, c.TimeS);

    private static IEnumerable<OptionItem> Fields(int item, params long[] values) => values.Select((value, i) => new OptionItem(item, i, value));
}
