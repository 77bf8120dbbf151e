// SPDX-License-Identifier: MIT
using SensorSim.Sensing.EcgNoise;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>Noise of the ECG from one source, or from all together.</summary>
/// <param name="Source">Name of the source, such as <c>white_noise</c>; <c>all</c> for the sum of the powers.</param>
/// <param name="RmsUv">Level [µV rms].</param>
/// <param name="SnrDb">(QRS peak to peak)²/8 of a steady normal beat over the power of the noise [dB]; null without a QRS.</param>
/// <param name="BandSnrDb">The same over the power between 8 and 20 Hz [dB]; null without a QRS, or where the noise has none there.</param>
public sealed record EcgNoiseFigure(string Source, double RmsUv, double? SnrDb, double? BandSnrDb);

/// <summary>Noise of the ECG at one time of a scenario, in closed form from the knobs.</summary>
/// <param name="AtSeconds">The time [s].</param>
/// <param name="All">All sources together.</param>
/// <param name="Sources">Each source that is on.</param>
public sealed record EcgNoiseFigures(double AtSeconds, EcgNoiseFigure All, IReadOnlyList<EcgNoiseFigure> Sources)
{
    // Settling is over to four in a million after so many time constants.
    private const double TimeConstants = 12.5;

    /// <summary>The figures at a time; null when the ECG is clean then.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seconds">Time [s].</param>
    public static EcgNoiseFigures? At(KeyValues values, double seconds)
    {
        var levels = new EcgNoiseLevels(values);
        EcgNoiseFigure Figure(string name, double rmsMv, double bandRmsMv) => new(name, 1000 * rmsMv, levels.SnrDb(rmsMv), levels.SnrDb(bandRmsMv));
        double all = levels.TotalRmsMv(seconds);
        return all == 0 ? null : new EcgNoiseFigures(
            seconds,
            Figure("all", all, levels.TotalBandRmsMv(seconds)),
            [
                .. EcgNoiseLevels.Kinds.Where(kind => levels.RmsMv(kind, seconds) > 0)
                    .Select(kind => Figure(EcgNoiseLevels.Name(kind), levels.RmsMv(kind, seconds), levels.BandRmsMv(kind, seconds))),
            ]);
    }

    /// <summary>
    /// The figures at the first time at which the noise is strongest; null when it is never stronger than at the start. Looked at where a level
    /// changes and where that is over; sines on top count with their middle.
    /// </summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="durationSeconds">Length of the scenario [s].</param>
    public static EcgNoiseFigures? Worst(KeyValues values, double durationSeconds)
    {
        var levels = new EcgNoiseLevels(values);
        double worst = 0;
        foreach (double seconds in EcgNoiseLevels.Kinds.SelectMany(levels.Courses).SelectMany(course => course.Changes).SelectMany(Times).Order())
        {
            if (seconds < durationSeconds && levels.TotalRmsMv(seconds) > levels.TotalRmsMv(worst))
            {
                worst = seconds;
            }
        }

        return worst == 0 ? null : At(values, worst);
    }

    private static IEnumerable<double> Times(CourseChange change) => change.Kind switch
    {
        ChangeKind.Ramp => [change.AtSeconds, change.AtSeconds + change.OverSeconds],
        ChangeKind.Settle => [change.AtSeconds, change.AtSeconds + (TimeConstants * change.OverSeconds)],
        _ => [change.AtSeconds],
    };
}
