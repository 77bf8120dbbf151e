// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>Levels of what electrodes and amplifier do to the ECG, for <c>acquisition.csv</c>.</summary>
internal static class ElectrodeLevels
{
    /// <summary>The levels, in the order of the file.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<Level> Of(KeyValues values)
    {
        Course steps = values.Course(ElectrodeKeys.StepsPerMin);
        Course pops = values.Course(ElectrodeKeys.PopsPerMin);
        Course losses = values.Course(ElectrodeKeys.ContactLossPerH);
        Course overloads = values.Course(ElectrodeKeys.OverloadPerH);
        Course body = values.Course(MainsKeys.BodyCouplingPf);
        Course lead = values.Course(MainsKeys.LeadCouplingPf);
        Course direct = values.Course(EcgAmplifierKeys.MainsUvPp);
        Course modulation = values.Course(MainsKeys.ModulationPercent);
        bool hasOverload = values.IsSet(ElectrodeKeys.OverloadAtS);
        var mains = new MainsCoupling(values);
        yield return new Level("flicker_noise_uv_rms", "uV", values.Course(EcgAmplifierKeys.FlickerNoiseUvRms));
        yield return new Level("electrode_offset_mv", "mV", values.Course(ElectrodeKeys.OffsetMv));
        yield return new Level("electrode_drift_uv_per_s", "uV/s", values.Course(ElectrodeKeys.OffsetDriftUvPerS));
        yield return new Level("electrode_steps_per_min", "1/min", steps);
        yield return new Level("electrode_step_mv_rms", "mV", values.Course(ElectrodeKeys.StepMvRms), steps);
        yield return new Level("electrode_pops_per_min", "1/min", pops);
        yield return new Level("electrode_pop_mv_rms", "mV", values.Course(ElectrodeKeys.PopMvRms), pops);
        yield return new Level("contact_loss_per_h", "1/h", losses);
        yield return new Level("contact_loss_s", "s", values.Course(ElectrodeKeys.ContactLossS), losses);
        yield return new Level("overload_per_h", "1/h", overloads);
        yield return new Level("overload_at_s", "s", _ => hasOverload ? values[ElectrodeKeys.OverloadAtS] : 0, []);
        yield return new Level("overload_mv", "mV", t => hasOverload || overloads.Value(t) != 0 ? values[ElectrodeKeys.OverloadMv] : 0, [overloads]);
        yield return new Level("common_mode_mv_rms", "mV", mains.CommonModeMvRms, mains.Courses);
        yield return new Level("mains_pickup_uv_pp", "uV", mains.PickupUvPp, mains.Courses);
        yield return new Level(
            "mains_modulation_percent",
            "%",
            t => direct.Value(t) == 0 && body.Value(t) == 0 && lead.Value(t) == 0 ? 0 : modulation.Value(t),
            [direct, body, lead, modulation]);
        yield return new Level("input_range_mv", "mV", new Course(values[EcgAmplifierKeys.InputRangeMv]));
        yield return new Level("high_pass_hz", "Hz", new Course(values[EcgAmplifierKeys.HighPassHz]));
        yield return new Level("low_pass_hz", "Hz", new Course(values[EcgAmplifierKeys.LowPassHz]));
    }
}
