// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Oxygen;

/// <summary>What pulsing blood is made of.</summary>
/// <param name="Saturation">Functional saturation, 0 to 1.</param>
/// <param name="Carboxy">Share of all haemoglobin bound to carbon monoxide, 0 to 1.</param>
/// <param name="Met">Share of all haemoglobin that is oxidised, 0 to 1.</param>
internal readonly record struct BloodMix(double Saturation, double Carboxy, double Met);

/// <summary>Extinction of blood at one wavelength.</summary>
internal readonly struct BloodExtinction
{
    private readonly double _oxygenated;
    private readonly double _deoxygenated;
    private readonly double _carboxy;
    private readonly double _met;

    /// <summary>Looks the wavelength up [nm].</summary>
    public BloodExtinction(double wavelengthNm)
    {
        _oxygenated = Haemoglobin.Extinction(Species.Oxygenated, wavelengthNm);
        _deoxygenated = Haemoglobin.Extinction(Species.Deoxygenated, wavelengthNm);
        _carboxy = Haemoglobin.Extinction(Species.Carboxy, wavelengthNm);
        _met = Haemoglobin.Extinction(Species.Met, wavelengthNm);
    }

    /// <summary>Ratio of red to infrared extinction of clean blood at a saturation from 0 to 1.</summary>
    public static double Ratio(in BloodExtinction red, in BloodExtinction infrared, double saturation) =>
        red.Clean(saturation) / infrared.Clean(saturation);

    /// <summary>The saturation at which clean blood has a ratio: the inverse of <see cref="Ratio"/>, not cut to 0 to 1.</summary>
    public static double Saturation(in BloodExtinction red, in BloodExtinction infrared, double ratio) =>
        (red._deoxygenated - (ratio * infrared._deoxygenated))
        / (red._deoxygenated - red._oxygenated + (ratio * (infrared._oxygenated - infrared._deoxygenated)));

    /// <summary>Extinction of a mix [1/(cm · mol/l)].</summary>
    public double Of(in BloodMix mix) =>
        ((1 - mix.Carboxy - mix.Met) * Clean(mix.Saturation)) + (mix.Carboxy * _carboxy) + (mix.Met * _met);

    private double Clean(double saturation) => (saturation * _oxygenated) + ((1 - saturation) * _deoxygenated);
}
