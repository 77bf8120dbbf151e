// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Oxygen;

/// <summary>Absorbance of a pulse unit for each light, by perfusion and oxygen; asked once a beat.</summary>
public sealed class LightGains
{
    private readonly Course _perfusionPercent;
    private readonly PulseGains _steady;

    /// <summary>Creates the gains of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <exception cref="ArgumentException">The calibration table cannot be read; the message says why.</exception>
    public LightGains(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        Oxygen = new OxygenModel(values);
        _perfusionPercent = values.Course(PulseKeys.PerfusionIndexPercent);
        IsSteady = Oxygen.IsSteady && _perfusionPercent.IsConstant;
        _steady = Find(0);
    }

    /// <summary>Whether they are the same all the time.</summary>
    internal bool IsSteady { get; }

    /// <summary>Oxygen in the blood.</summary>
    public OxygenModel Oxygen { get; }

    /// <summary>Perfusion index of infrared for a steady pulse [%].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double PerfusionPercent(double seconds) =>
        Math.Max(PulseKeys.PerfusionIndexPercent.Minimum, Math.Min(PulseKeys.PerfusionIndexPercent.Maximum, _perfusionPercent.Value(seconds)));

    /// <summary>The gains at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    public PulseGains At(double seconds) => IsSteady ? _steady : Find(seconds);

    private PulseGains Find(double seconds)
    {
        LightRatios ratios = Oxygen.Ratios(seconds);
        PulseGains gains = default;
        gains[1] = Perfusion.Height(PerfusionPercent(seconds));
        gains[0] = gains[1] * ratios.Red;
        gains[2] = gains[1] * ratios.Green;
        return gains;
    }
}
