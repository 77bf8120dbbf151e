// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Shot noise of the photodiode and thermal noise of its amplifier's resistor, as far as a scenario turns them on.</summary>
/// <remarks>Safe for several threads.</remarks>
public sealed class OpticalNoise
{
    private readonly bool _hasShot;
    private readonly double _kilohm;
    private readonly double _celsius;

    /// <summary>Creates the noise of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    public OpticalNoise(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        _hasShot = values[OpticalNoiseKeys.ShotNoise] == "on";
        _kilohm = values[OpticalNoiseKeys.FeedbackKohm];
        _celsius = values[OpticalNoiseKeys.TemperatureC];
    }

    /// <summary>Whether there is any.</summary>
    public bool IsOn => _hasShot || _kilohm > 0;

    /// <summary>Shot noise [nA rms of photocurrent].</summary>
    /// <param name="currentNa">Mean photocurrent, ambient light included [nA].</param>
    /// <param name="windowUs">Time over which a slot gathers light [µs].</param>
    public double ShotNa(double currentNa, double windowUs) =>
        _hasShot ? CurrentNoise.ShotNa(currentNa, CurrentNoise.BandwidthHz(windowUs)) : 0;

    /// <summary>Thermal noise [nA rms of photocurrent].</summary>
    /// <param name="windowUs">Time over which a slot gathers light [µs].</param>
    /// <param name="gain">Gain, which the resistor makes.</param>
    public double ThermalNa(double windowUs, double gain) =>
        _kilohm > 0 && gain > 0 ? CurrentNoise.ThermalNa(_kilohm * gain, _celsius, CurrentNoise.BandwidthHz(windowUs)) : 0;

    /// <summary>Sum of the variances [nA² of photocurrent].</summary>
    /// <param name="currentNa">Mean photocurrent, ambient light included [nA].</param>
    /// <param name="windowUs">Time over which a slot gathers light [µs].</param>
    /// <param name="gain">Gain of the amplifier.</param>
    public double Variance(double currentNa, double windowUs, double gain)
    {
        double shot = ShotNa(currentNa, windowUs);
        double thermal = ThermalNa(windowUs, gain);
        return (shot * shot) + (thermal * thermal);
    }
}
