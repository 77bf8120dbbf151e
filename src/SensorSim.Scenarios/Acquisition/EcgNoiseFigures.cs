// SPDX-License-Identifier: MIT
using SensorSim.Sensing.EcgNoise;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>Noise of the ECG from one source, or from all together.</summary>
/// <param name="Source">Name of the source, such as <c>white_noise</c>; <c>all</c> for the sum of the powers.</param>
/// <param name="RmsUv">Level [µV rms].</param>
/// <param name="SnrDb">(QRS peak to peak)²/8 of a steady normal beat over the power of the noise [dB]; null without a QRS.</param>
/// <param name="BandSnrDb">The same over the power between 8 and 20 Hz [dB]; null without a QRS, or where the noise has none there.</param>
public sealed record EcgNoiseFigure(string Source, double RmsUv, double? SnrDb, double? BandSnrDb);

/// <summary>Noise of the ECG as it stands at the start of a scenario, in closed form from the knobs.</summary>
/// <param name="All">All sources together.</param>
/// <param name="Sources">Each source that is on.</param>
public sealed record EcgNoiseFigures(EcgNoiseFigure All, IReadOnlyList<EcgNoiseFigure> Sources)
{
    /// <summary>The figures of a scenario; null when the ECG is clean at its start.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static EcgNoiseFigures? AtStart(KeyValues values)
    {
        var levels = new EcgNoiseLevels(values);
        EcgNoiseFigure Figure(string name, double rmsMv, double bandRmsMv) => new(name, 1000 * rmsMv, levels.SnrDb(rmsMv), levels.SnrDb(bandRmsMv));
        double all = levels.TotalRmsMv(0);
        return all == 0 ? null : new EcgNoiseFigures(
            Figure("all", all, levels.TotalBandRmsMv(0)),
            [
                .. EcgNoiseLevels.Kinds.Where(kind => levels.RmsMv(kind, 0) > 0)
                    .Select(kind => Figure(EcgNoiseLevels.Name(kind), levels.RmsMv(kind, 0), levels.BandRmsMv(kind, 0))),
            ]);
    }
}
