// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.Optics;

/// <summary>Noise that currents and resistors make by themselves, in closed form.</summary>
/// <remarks>
/// A slot gathers charge over a window T and tells the mean current. The mean over T weighs frequency f with sinc²(fT), and
/// ∫ sinc²(fT) df from 0 to infinity is 1/(2T): white noise of density S gives a variance of S/(2T), and windows that do not overlap
/// give independent values. Shot noise then is that of counting: q·√N over T for N electrons. Schottky, Ann Phys 57:541, 1918;
/// Nyquist, Phys Rev 32:110, 1928; constants exact since 2019 (CODATA 2018).
/// </remarks>
public static class CurrentNoise
{
    /// <summary>Elementary charge [C].</summary>
    public const double ElementaryCharge = 1.602176634e-19;

    /// <summary>Boltzmann constant [J/K].</summary>
    public const double Boltzmann = 1.380649e-23;

    private const double ZeroCelsiusKelvin = 273.15;
    private const double NanoPerUnit = 1e9;

    /// <summary>Noise bandwidth of a mean over a window: 1/(2T) [Hz].</summary>
    /// <param name="windowUs">Window T [µs], above 0.</param>
    public static double BandwidthHz(double windowUs) => 0.5e6 / windowUs;

    /// <summary>Shot noise of a current: √(2qIB) [nA rms].</summary>
    /// <param name="currentNa">Mean current [nA], at least 0.</param>
    /// <param name="bandwidthHz">Noise bandwidth [Hz].</param>
    public static double ShotNa(double currentNa, double bandwidthHz) =>
        Math.Sqrt(2 * ElementaryCharge * NanoPerUnit * currentNa * bandwidthHz);

    /// <summary>Thermal noise current of a resistor: √(4kTB/R) [nA rms].</summary>
    /// <param name="kilohm">Resistance [kΩ], above 0.</param>
    /// <param name="celsius">Temperature [°C].</param>
    /// <param name="bandwidthHz">Noise bandwidth [Hz].</param>
    public static double ThermalNa(double kilohm, double celsius, double bandwidthHz) =>
        NanoPerUnit * Math.Sqrt(4 * Boltzmann * (ZeroCelsiusKelvin + celsius) * bandwidthHz / (kilohm * 1e3));
}
