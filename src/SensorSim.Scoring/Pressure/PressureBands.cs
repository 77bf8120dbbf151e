// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Pressure;

/// <summary>How many readings are within 5, 10 and 15 mmHg of the truth, and the two published grades that follow from errors.</summary>
/// <remarks>
/// Sources (secondary): shares by the protocol of the British Hypertension Society, O'Brien et al. 1993: A 60/85/95, B 50/75/90, C 40/65/85 %, all three
/// needed, else D. Mean absolute difference by IEEE 1708-2014: A up to 5, B up to 6, C below 7, D from 7 mmHg on.
/// </remarks>
public sealed class PressureBands
{
    private static readonly (PressureGrade Grade, double Within5, double Within10, double Within15)[] s_shares =
    [
        (PressureGrade.A, 0.60, 0.85, 0.95), (PressureGrade.B, 0.50, 0.75, 0.90), (PressureGrade.C, 0.40, 0.65, 0.85),
    ];

    /// <summary>Readings added.</summary>
    public long Count { get; private set; }

    /// <summary>Of these, within 5 mmHg, 5 included.</summary>
    public long Within5 { get; private set; }

    /// <summary>Of these, within 10 mmHg, 10 included.</summary>
    public long Within10 { get; private set; }

    /// <summary>Of these, within 15 mmHg, 15 included.</summary>
    public long Within15 { get; private set; }

    /// <summary>Grade by cumulative shares; null without a reading.</summary>
    public PressureGrade? Grade
    {
        get
        {
            if (Count == 0)
            {
                return null;
            }

            foreach ((PressureGrade grade, double within5, double within10, double within15) in s_shares)
            {
                if (Reaches(Within5, within5) && Reaches(Within10, within10) && Reaches(Within15, within15))
                {
                    return grade;
                }
            }

            return PressureGrade.D;
        }
    }

    /// <summary>Share of readings within a band [ratio]; null without a reading.</summary>
    /// <param name="within">One of <see cref="Within5"/>, <see cref="Within10"/>, <see cref="Within15"/>.</param>
    public double? Share(long within) => Count == 0 ? null : (double)within / Count;

    /// <summary>Grade by the mean absolute difference.</summary>
    /// <param name="meanAbsoluteMmhg">Mean of |estimate − truth| [mmHg], at least 0.</param>
    public static PressureGrade GradeOfMeanAbsolute(double meanAbsoluteMmhg) => meanAbsoluteMmhg switch
    {
        <= 5 => PressureGrade.A,
        <= 6 => PressureGrade.B,
        < 7 => PressureGrade.C,
        _ => PressureGrade.D,
    };

    /// <summary>Adds a reading.</summary>
    /// <param name="errorMmhg">Estimate − truth [mmHg].</param>
    public void Add(double errorMmhg)
    {
        // Whole millionths: a reading of 125.3 against 120.3 is 5 off and not 5.0000000000000142.
        double size = Math.Round(Math.Abs(errorMmhg) * 1e6) / 1e6;
        Count++;
        Within5 += size <= 5 ? 1 : 0;
        Within10 += size <= 10 ? 1 : 0;
        Within15 += size <= 15 ? 1 : 0;
    }

    /// <summary>Adds the readings of other bands.</summary>
    /// <param name="other">The bands; unchanged.</param>
    public void Add(PressureBands other)
    {
        ArgumentNullException.ThrowIfNull(other);
        Count += other.Count;
        Within5 += other.Within5;
        Within10 += other.Within10;
        Within15 += other.Within15;
    }

    // In per mille of whole counts: 60 of 100 are 60 %.
    private bool Reaches(long within, double share) => within * 100 >= (long)Math.Round(share * 100) * Count;
}
