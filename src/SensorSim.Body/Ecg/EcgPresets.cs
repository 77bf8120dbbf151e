// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Ecg;

/// <summary>Heights of the waves [mV] by the preset <c>ecg.shape</c>; a height that the scenario sets itself wins.</summary>
/// <remarks>
/// tall_t: T as high as R of the normal shape; the tall-T test of heart-rate meters goes to 1.2 mV (IEC 60601-2-27, read in data sheets).
/// low_voltage: QRS peak to peak below 0.5 mV, the usual limit for limb leads (from memory); other heights: choice of this project.
/// </remarks>
internal static class EcgPresets
{
    /// <summary>Course of a height.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="key">The height.</param>
    public static Course Height(KeyValues values, NumberKey key)
    {
        Course own = values.Course(key);
        return values.IsSet(key) ? own : new Course(Preset(values[EcgKeys.Shape], key), own.Changes, own.Oscillations);
    }

    private static double Preset(string shape, NumberKey key) => shape switch
    {
        "tall_t" when key == EcgKeys.TMv => 1.0,
        "low_voltage" => LowVoltage(key),
        _ => key.Default,
    };

    private static double LowVoltage(NumberKey key) =>
        key == EcgKeys.PMv ? 0.05
        : key == EcgKeys.QMv ? -0.03
        : key == EcgKeys.RMv ? 0.3
        : key == EcgKeys.SMv ? -0.08
        : key == EcgKeys.TMv ? 0.08
        : 0.4 * key.Default;
}
