// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;

namespace SensorSim.Scoring.Pressure;

/// <summary>The largest standard deviation of subjects' means that criterion 2 of ISO 81060-2 tolerates, which depends on the mean.</summary>
/// <remarks>
/// The rule behind the table of the standard (secondary sources): a subject's error is within 10 mmHg with a probability of at least 85 %, for normal
/// errors. At a mean of 0 it gives 6.95 mmHg, at 5 it gives 4.81 (the printed table: 4.79). Computed here, not read from the table.
/// </remarks>
public static class SubjectMeanLimit
{
    /// <summary>Errors that count as tolerable [mmHg].</summary>
    public const double TolerableMmhg = 10;

    /// <summary>Probability of a tolerable error.</summary>
    public const double Probability = 0.85;

    /// <summary>Largest tolerated standard deviation [mmHg].</summary>
    /// <param name="meanMmhg">Mean of the subjects' mean errors [mmHg]; its sign does not matter.</param>
    /// <returns>The limit to 10⁻⁹ mmHg; 0 when the mean alone is 10 mmHg or more.</returns>
    public static double SdLimitMmhg(double meanMmhg)
    {
        double mean = Math.Abs(meanMmhg);
        if (!(mean < TolerableMmhg))
        {
            return 0;
        }

        double low = 0;
        double high = 2 * TolerableMmhg;
        while (high - low > 1e-9)
        {
            double middle = (low + high) / 2;
            (low, high) = Share(mean, middle) >= Probability ? (middle, high) : (low, middle);
        }

        return low;
    }

    private static double Share(double mean, double sd) =>
        Normal.CDF(mean, sd, TolerableMmhg) - Normal.CDF(mean, sd, -TolerableMmhg);
}
