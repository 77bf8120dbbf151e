// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>Streams and options that the tests of the twin share.</summary>
internal static class TwinCases
{
    private static readonly DetectorCalibration s_onePoint = new()
    {
        Pressure = new PressureCurve("logarithmic", [new CuffMeasurement(215, 120, 80)]),
        Trend = new TrendSearch(),
        TimeOfDayH = 10,
        Oxygen = [new OxygenPair(0.4, 100), new OxygenPair(0.9, 88.5), new OxygenPair(2.5, 41)],
    };

    private static readonly DetectorCalibration s_twoPoint = new()
    {
        Pressure = new PressureCurve(
            "pulse_pressure",
            [new CuffMeasurement(230, 115, 76) { RateBpm = 61, SpreadMs = 4 }, new CuffMeasurement(205, 131, 84) { RateBpm = 74, AgeDays = 3 }])
        {
            SystolicMmhgPerBpm = 0.2,
            DiastolicMmhgPerBpm = 0.1,
            ReachMmhg = 30,
        },
        Trend = new TrendSearch { FalseAlarmDays = 100, LearningDays = 7, RestMarginBpm = 15 },
        TimeOfDayH = 23.9,
    };

    private static readonly Dictionary<string, double> s_constants = new(StringComparer.Ordinal)
    {
        ["detector.beat_refractory_ms"] = 260,
        ["detector.beat_t_wave_ms"] = 420,
        ["detector.beat_threshold_percent"] = 80,
        ["detector.pulse_refractory_ms"] = 310,
        ["detector.pulse_threshold_percent"] = 130,
        ["detector.gate_shut_ms"] = 1500,
        ["detector.ecg_gate_faults"] = 5,
        ["detector.light_gate_faults"] = 1,
        ["detector.gate_doubt"] = 2,
    };

    /// <summary>Constants that all differ from their usual values.</summary>
    public static IReadOnlyDictionary<string, double> Constants => s_constants;

    /// <summary>Nothing told; a calibration by one cuff and an oxygen table; one by two cuffs with other constants; other constants alone.</summary>
    public static TwinOptions[] Options { get; } = [new(), new(s_onePoint), new(s_twoPoint, s_constants), new(null, s_constants)];

    /// <summary>Every scenario of the repository.</summary>
    public static IEnumerable<string> Scenarios =>
        Directory.EnumerateFiles(Path.Combine(CCompiler.Root, "waveforms", "scenarios"), "*.toml", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(CCompiler.Root, path).Replace('\\', '/')).Order(StringComparer.Ordinal);
}
