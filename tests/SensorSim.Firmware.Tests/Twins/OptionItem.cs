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
            new(0x201, i, (long)Math.Round(pair.Ratio * 10_000)),
            new(0x202, i, (long)Math.Round(pair.SaturationPercent * 1000)),
        });
        return
        [
            new(0x01, 0, options.StartS),
            .. Fields(
                0x100, tuning.BeatRefractoryMs, tuning.BeatTWaveMs, tuning.BeatThresholdPercent, tuning.PulseRefractoryMs, tuning.PulseThresholdPercent, tuning.GateShutMs,
                tuning.EcgFaultsToOpen, tuning.LightFaultsToOpen, tuning.Doubt),
            .. Calibration?.Oxygen is { Count: > 0 } pairs ? (OptionItem[])[new(0x200, 0, pairs.Count)] : [],
            .. oxygen,
            .. Fields(
                0x300, p.Points, (long)p.Model, p.SlopeMilliMmHgPerMs, p.ZetaMicroPerMmHg, p.DiastolicSharePermille, p.SystolicPerBpmMilli, p.DiastolicPerBpmMilli,
                p.LongestAgeDays, p.ReachMilliMmHg),
            .. Cuff(0, p.First),
            .. Cuff(1, p.Second),
            .. Fields(0x400, t.Allowance256, t.Threshold256, t.LearningDays, t.FirstSd16, t.FirstSdDays, t.LeastQuality, t.PerBpmMilli, t.RestMarginBpm),
        ];
    }

    private static IEnumerable<OptionItem> Cuff(int number, CuffPoint c) =>
        Fields(0x310, c.SystolicMilli, c.DiastolicMilli, c.ArrivalUs, c.SpreadUs, c.RateMilliBpm, c.TimeS).Select(item => item with { Index = number });

    private static IEnumerable<OptionItem> Fields(int item, params long[] values) => values.Select((value, i) => new OptionItem(item + i, 0, value));
}
