// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Support;

/// <summary>Bodies whose truth is checked: each stands for one way in which a solver could go wrong.</summary>
public static class Cases
{
    private static readonly Dictionary<string, KeyValues> s_all = new(StringComparer.Ordinal)
    {
        ["default"] = new KeyValues(),
        ["40 bpm"] = new KeyValues().Set(HeartKeys.RateBpm, 40),
        ["90 bpm"] = new KeyValues().Set(HeartKeys.RateBpm, 90),
        ["120 bpm"] = new KeyValues().Set(HeartKeys.RateBpm, 120),
        ["150 bpm"] = new KeyValues().Set(HeartKeys.RateBpm, 150),
        ["180 bpm"] = new KeyValues().Set(HeartKeys.RateBpm, 180),
        ["high variability"] = new KeyValues().Set(HeartKeys.RespiratoryVariabilityMs, 100).Set(HeartKeys.SlowVariabilityMs, 100),
        ["large R, 60 ms QRS"] = new KeyValues().Set(EcgKeys.RMv, 5).Set(EcgKeys.QrsMs, 60),
        ["small R"] = new KeyValues().Set(EcgKeys.RMv, 0.15).Set(EcgKeys.QMv, -0.02).Set(EcgKeys.SMv, -0.03),
        ["inverted R"] = new KeyValues().Set(EcgKeys.RMv, -1).Set(EcgKeys.QMv, 0.15).Set(EcgKeys.SMv, 0.3).Set(EcgKeys.PMv, -0.1),
        ["deep S wins"] = new KeyValues().Set(EcgKeys.RMv, 0.5).Set(EcgKeys.SMv, -1.2),
        ["deep Q wins, 160 ms QRS"] = new KeyValues().Set(EcgKeys.RMv, 0.4).Set(EcgKeys.QMv, -1).Set(EcgKeys.QrsMs, 160),
        ["160 ms QRS, tall T"] = new KeyValues().Set(EcgKeys.QrsMs, 160).Set(EcgKeys.TMv, 1.2).Set(EcgKeys.QtcMs, 480),
        ["R and S nearly equal"] = new KeyValues().Set(EcgKeys.RMv, 0.8).Set(EcgKeys.SMv, -0.75),
        ["late arrival, breathing"] = new KeyValues().Set(PulseKeys.ArrivalMs, 400).Set(PulseKeys.ArrivalSpreadMs, 12)
            .Set(PulseKeys.RespiratoryAmplitudePercent, 50).Set(BreathingKeys.RatePerMin, 30),
        ["early arrival, 110 bpm"] = new KeyValues().Set(PulseKeys.ArrivalMs, 90).Set(HeartKeys.RateBpm, 110),
    };

    /// <summary>Names of the cases.</summary>
    public static IEnumerable<string> Names => s_all.Keys;

    /// <summary>The knobs of a case.</summary>
    public static KeyValues Values(string name) => s_all[name].Copy();
}
