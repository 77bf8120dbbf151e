// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Oxygen;

/// <summary>How strongly forms of haemoglobin absorb light.</summary>
public static class Haemoglobin
{
    /// <summary>Shortest tabulated wavelength [nm].</summary>
    public const double ShortestNm = 500;

    /// <summary>Longest tabulated wavelength [nm].</summary>
    public const double LongestNm = 1000;

    /// <summary>Molar mass of the tetramer that the coefficients count [g/mol].</summary>
    public const double GramsPerMole = 64500;

    /// <summary>Decadic molar extinction coefficient of a tetramer [1/(cm · mol/l)], straight lines between the rows of the table.</summary>
    /// <param name="species">Form of haemoglobin.</param>
    /// <param name="wavelengthNm">Wavelength [nm], 500 to 1000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is not tabulated.</exception>
    public static double Extinction(Species species, double wavelengthNm)
    {
        if (!(wavelengthNm >= ShortestNm && wavelengthNm <= LongestNm))
        {
            throw new ArgumentOutOfRangeException(nameof(wavelengthNm), wavelengthNm, "Extinction coefficients are tabulated from 500 to 1000 nm.");
        }

        return species switch
        {
            Species.Oxygenated => Even(HaemoglobinTable.Oxygenated, wavelengthNm),
            Species.Deoxygenated => Even(HaemoglobinTable.Deoxygenated, wavelengthNm),
            Species.Carboxy => Mixed(HaemoglobinTable.Carboxy, HaemoglobinTable.CarboxyAbove800, wavelengthNm),
            _ => Mixed(HaemoglobinTable.Met, HaemoglobinTable.MetAbove800, wavelengthNm),
        };
    }

    /// <summary>Absorption coefficient [1/cm], natural logarithm: ln 10 · extinction · concentration.</summary>
    /// <param name="species">Form of haemoglobin.</param>
    /// <param name="wavelengthNm">Wavelength [nm], 500 to 1000.</param>
    /// <param name="gramsPerLitre">Haemoglobin [g/l].</param>
    public static double AbsorptionPerCm(Species species, double wavelengthNm, double gramsPerLitre) =>
        2.302585092994046 * Extinction(species, wavelengthNm) * gramsPerLitre / GramsPerMole;

    private static double Even(ReadOnlySpan<double> table, double nm)
    {
        double place = (nm - ShortestNm) / HaemoglobinTable.StepNm;
        int below = Math.Min(table.Length - 2, (int)place);
        return table[below] + ((place - below) * (table[below + 1] - table[below]));
    }

    private static double Mixed(ReadOnlySpan<double> even, ReadOnlySpan<double> pairs, double nm)
    {
        if (nm <= pairs[0])
        {
            return Even(even, nm);
        }

        int i = 0;
        while (pairs[i + 2] < nm)
        {
            i += 2;
        }

        return pairs[i + 1] + ((nm - pairs[i]) / (pairs[i + 2] - pairs[i]) * (pairs[i + 3] - pairs[i + 1]));
    }
}
