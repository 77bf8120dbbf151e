// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Scenarios.Subjects;

/// <summary>How the values of a person are distributed and depend on each other: the one table behind the draw.</summary>
/// <remarks>
/// <para>u is uniform in (0, 1), every z standard normal and cut at ±2.5: nobody is further out (choice of this project).</para>
/// <para>
/// Age: 20 to 79 years evenly, and the six skin tones evenly: choices of this project, so that nobody who wears a sensor is rare. Height:
/// means of the US survey of 2011-2014 (Fryar et al., from memory), standard deviations of that of 1960-1962 (Vital Health Stat 11, No 8).
/// </para>
/// <para>
/// Resting rate: 74 bpm in women, 71 in men from 20 years on, without a trend (Ostchega et al., Natl Health Stat Rep 41, 2011); standard
/// deviation 11 bpm (from memory). RR variability: ln of the power in ms² falls with age, HF 6.833 − 0.039 age (R² 0.287), LF
/// 7.197 − 0.047 age (R² 0.414) in 300 people of 19 to 69 years (Choi et al., Front Aging Neurosci 12:610626, 2020); the rest of the
/// spread follows from R² with an age spread of 14.4 years. SDNN against rate: r −0.64, interval −0.78 to −0.44 (n 48, PMC3743650).
/// </para>
/// <para>
/// Pressure: 121 ± 13 / 78 ± 9 mmHg in men, 113 ± 14 / 73 ± 9 in women (Table 20.2 of Adv Exp Med Biol 1065:307, 2018, its third source).
/// Systolic rises by 0.4 mmHg a year, diastolic is highest at 50 years and 5 mmHg lower at 20 and 80 (sizes from memory; shape: Wright et
/// al., Natl Health Stat Rep 35, 2011). Both rise together, r 0.7 (from memory).
/// </para>
/// <para>
/// Wave speed: +7 % per decade (6 to 8 % of Díaz et al., Int J Hypertens 2014:653239), so the elastic modulus, which goes with its square
/// (Moens-Korteweg), rises by twice that in the logarithm; persons of one age differ by 15 % (12 to 20 % within the age groups of the
/// European reference values, Eur Heart J 31:2338, 2010, from memory). The model's own default stands for 40 years. Stiffness index: 7 m/s
/// at 40 years (height 1.75 m, 0.25 s), 5 to 12 m/s usual (from memory), with the same rise; r 0.65 with the wave speed and 0.63 with age
/// (Millasseau et al., Clin Sci 103:371, 2002, from memory). Reflection index: 60 ± 10 %, 40 to 80 % usual (from memory), rising with age
/// (Brillante et al., Blood Press 17:116, 2008; the size, 0.2 % a year, is a choice of this project).
/// </para>
/// <para>
/// Pre-ejection period from the R peak: 58.5 ± 13.0 ms below 50 years, 52.4 ± 11.9 ms above (Kortekaas et al., PLoS ONE 13:e0204105,
/// 2018). Perfusion index: median 1.4 %, quartiles 0.7 and 3.0 % at the finger (Lima et al., Crit Care Med 30:1210, 2002; quartiles from
/// memory), a logarithmic normal law; elsewhere middle of the usual range (from memory: wrist 0.1 to 2 %, forehead 0.3 to 1 %).
/// </para>
/// </remarks>
internal static class SubjectLaws
{
    public const double LargestZ = 2.5;

    private const double MiddleAge = 49.5;
    private const double SdOfAge = 17.3;
    private const double LnRisePerYear = 0.0067659; // ln 1.07 / 10
    private const double SpeedSpread = 0.15;

    public static double AgeYears(double u) => 20 + Math.Floor(60 * u);

    public static double HeightM(bool isMale, double z) => isMale ? 1.757 + (0.0724 * z) : 1.618 + (0.0655 * z);

    public static double SkinTone(double u) => 1 + Math.Floor(6 * u);

    public static double HeartRateBpm(bool isMale, double z) => (isMale ? 71 : 74) + (11 * z);

    /// <summary>Standard deviation of the RR interval that follows breathing [ms]: the root of the HF power.</summary>
    public static double RespiratoryVariabilityMs(double age, double zRate, double z) =>
        PortableMath.Exp(0.5 * (6.833 - (0.039 * age) + (0.886 * WithRate(zRate, z))));

    /// <summary>Standard deviation of the RR interval in the slow band [ms]: the root of the LF power.</summary>
    public static double SlowVariabilityMs(double age, double zRate, double z) =>
        PortableMath.Exp(0.5 * (7.197 - (0.047 * age) + (0.805 * WithRate(zRate, z))));

    public static double DiastolicMmhg(bool isMale, double age, double z) =>
        (isMale ? 79.7 : 74.7) - (0.0056 * (age - 50) * (age - 50)) + (8.87 * z);

    public static double SystolicMmhg(bool isMale, double age, double zDiastolic, double z)
    {
        const double Rise = 0.4;
        double sd = isMale ? 13 : 14;
        double rest = Math.Sqrt((sd * sd) - (Rise * Rise * SdOfAge * SdOfAge));
        return (isMale ? 121 : 113) + (Rise * (age - MiddleAge)) + (rest * Correlated(0.7, zDiastolic, z));
    }

    /// <summary>Wave speed over that of the middle person of 40 years.</summary>
    public static double SpeedRatio(double age, double z) => PortableMath.Exp((LnRisePerYear * (age - 40)) + (SpeedSpread * z));

    public static double StiffnessIndexMPerS(double age, double zSpeed, double z) =>
        7 * PortableMath.Exp((LnRisePerYear * (age - 40)) + (SpeedSpread * Correlated(0.44, zSpeed, z)));

    public static double ReflectionIndexPercent(double age, double z) => 60 + (0.2 * (age - MiddleAge)) + (9.4 * z);

    /// <summary>Pre-ejection period from the R peak at rest [ms].</summary>
    public static double PepFromRMs(double age, double z) => age < 50 ? 58.5 + (13.0 * z) : 52.4 + (11.9 * z);

    public static double PerfusionIndexPercent(string site, double z)
    {
        double middle = site switch
        {
            "finger" => 1.4,
            "wrist" => 0.45,
            _ => 0.55,
        };

        // Quartiles lie 0.6745 standard deviations out: ln(3.0 / 0.7) / (2 × 0.6745).
        return middle * PortableMath.Exp((site == "finger" ? 1.079 : 0.5) * z);
    }

    // Both bands go with the rate, so that their sum does.
    private static double WithRate(double zRate, double z) => Correlated(-0.55, zRate, z);

    private static double Correlated(double r, double zOther, double z) => (r * zOther) + (Math.Sqrt(1 - (r * r)) * z);
}
