// SPDX-License-Identifier: MIT
using SensorSim.Sensing.EcgNoise;
using SensorSim.Signals.Courses;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>What <c>acquisition.csv</c> says of the noise in the ECG: level and ratios of each source, and the ratios of all together.</summary>
internal static class EcgNoiseRows
{
    // Told among the knobs of the amplifier already.
    private static readonly EcgNoiseKind[] s_toldElsewhere =
        [EcgNoiseKind.WhiteNoise, EcgNoiseKind.BaselineWander, EcgNoiseKind.Breathing, EcgNoiseKind.Mains];

    /// <summary>The levels, in the order of the file.</summary>
    /// <param name="noise">Levels of the noise.</param>
    public static IEnumerable<Level> Of(EcgNoiseLevels noise)
    {
        foreach (EcgNoiseKind kind in EcgNoiseLevels.Kinds.Except(s_toldElsewhere))
        {
            yield return new Level($"{EcgNoiseLevels.Name(kind)}_uv_rms", "uV", t => 1000 * noise.RmsMv(kind, t), noise.Courses(kind));
        }

        foreach (EcgNoiseKind kind in EcgNoiseLevels.Kinds)
        {
            string name = EcgNoiseLevels.Name(kind);
            yield return Ratio($"{name}_snr_db", t => noise.RmsMv(kind, t), noise.Courses(kind));
            yield return Ratio($"{name}_snr_8_to_20_hz_db", t => noise.BandRmsMv(kind, t), noise.Courses(kind));
        }

        Course[] all = [.. EcgNoiseLevels.Kinds.SelectMany(noise.Courses)];
        yield return Ratio("ecg_snr_db", noise.TotalRmsMv, all);
        yield return Ratio("ecg_snr_8_to_20_hz_db", noise.TotalBandRmsMv, all);

        Level Ratio(string item, Func<double, double> rmsMv, IReadOnlyList<Course> courses) =>
            new(item, "dB", t => noise.SnrDb(rmsMv(t)) ?? double.PositiveInfinity, courses) { OffValue = double.PositiveInfinity };
    }
}
