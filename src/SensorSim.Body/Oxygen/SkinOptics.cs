// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Oxygen;

/// <summary>How melanin dims the light that comes back, against skin tone 2.</summary>
/// <remarks>
/// Melanosomes absorb 6.6e11 · (wavelength / nm)^−3.33 per cm; epidermis of 60 µm, passed twice (Jacques, Skin Optics, Oregon Medical Laser
/// Center, 1998). Shares of melanosomes in the epidermis there, from memory: light skin 1.3 to 6.3 %, moderate 11 to 16 %, dark 18 to 43 %;
/// put on the six tones by this project. Melanin lies above the vessels: it dims steady light and pulse alike and leaves their ratio.
/// Left out: scattering, which lengthens the path; the paler skin of the palm.
/// </remarks>
public static class SkinOptics
{
    private const double DoublePassCm = 0.012;

    private static ReadOnlySpan<double> MelaninShares => [0.013, 0.038, 0.063, 0.135, 0.18, 0.305];

    /// <summary>Share of melanosomes in the epidermis, straight lines between the tones.</summary>
    /// <param name="tone">Skin tone, 1 to 6.</param>
    public static double MelaninShare(double tone)
    {
        double place = Math.Max(0, Math.Min(5, tone - 1));
        int below = Math.Min(4, (int)place);
        return MelaninShares[below] + ((place - below) * (MelaninShares[below + 1] - MelaninShares[below]));
    }

    /// <summary>Light received over that of skin tone 2: 1 at tone 2, less on darker skin, most so at short wavelengths.</summary>
    /// <param name="tone">Skin tone, 1 to 6.</param>
    /// <param name="wavelengthNm">Wavelength [nm], above 0.</param>
    public static double LightFactor(double tone, double wavelengthNm)
    {
        double perCm = 6.6e11 * PortableMath.Pow(wavelengthNm, -3.33);
        return PortableMath.Exp(-perCm * DoublePassCm * (MelaninShare(tone) - MelaninShare(2)));
    }
}
