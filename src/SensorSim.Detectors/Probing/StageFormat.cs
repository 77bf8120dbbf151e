// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detectors.Probing;

/// <summary>What a stage declares about one of its values: the word it promises to stay in, and where it clips.</summary>
/// <param name="Bits">Bits of the word, the sign counted, 2 to 32.</param>
/// <param name="FractionBits">Bits of them after the point.</param>
/// <param name="Rail">Largest magnitude that passes unclipped; what reaches it is counted.</param>
/// <param name="Unit">Of the number that the word stands for.</param>
public readonly record struct StageFormat(int Bits, int FractionBits, int Rail, string Unit)
{
    /// <summary>In the usual notation with the sign counted, for example <c>Q25.0</c>.</summary>
    public string Q => FormattableString.Invariant($"Q{Bits - FractionBits}.{FractionBits}");

    /// <summary>Highest value of the word.</summary>
    public int Highest => (int)((1L << (Bits - 1)) - 1);

    /// <summary>The format of a point, as the remarks of its stage declare it.</summary>
    /// <param name="point">A defined point.</param>
    public static StageFormat Of(ProbePoint point) => point switch
    {
        // Codes of 24 bits; the other one sums of up to four of them.
        ProbePoint.EcgInput or ProbePoint.EcgWithoutSpikes => Word(26, "code"),

        // BandPass: both sums together have a gain of at most 2^6, the first alone of less than 16; the difference adds two bits.
        ProbePoint.EcgFirstSum => Word(28, "code × gain"),
        ProbePoint.EcgSecondSum => Word(30, "code × gain"),

        // QrsEnergy clips magnitudes at 2^25 − 1 and adds up at most 63 of them.
        ProbePoint.EcgBandPass => Word(32, "code × gain", (1 << 25) - 1),
        ProbePoint.EcgEnergy or ProbePoint.BeatThreshold or ProbePoint.BeatLookBackThreshold => Word(32, "code × gain"),

        // Difference of two codes of 24 bits; the canceller clips what it takes off at 2^24.
        ProbePoint.LightWithoutDark => Word(25, "code"),
        ProbePoint.CancellerEstimate => Word(26, "code", 1 << 24),
        ProbePoint.CancellerOutput => Word(26, "code"),

        // MovementReference clips its functions at 2^20, in 1/16384 g; the power is told by the place of its highest bit.
        ProbePoint.MovementReference => new StageFormat(22, 14, 1 << 20, "g"),
        ProbePoint.CancellerPower => Word(7, "bits"),

        // PulseDetector: minus the light, sums of up to five codes of 24 bits.
        ProbePoint.PulseInput => Word(27, "code"),
        ProbePoint.PulseSlope or ProbePoint.PulseThreshold => Word(32, "code × gain"),

        // Differences of 15 bits times whole weights whose magnitudes sum to less than 2^12.
        ProbePoint.PulseCurvature => Word(29, "code × gain"),

        // Three axes of at most 16 g each.
        ProbePoint.MovementLevel => Word(16, "mg"),

        // Up to 64 codes of 24 bits in a sum, clipped at 2^30.
        ProbePoint.SpectrumInput => Word(32, "code", 1 << 30),

        // Not narrower than its word.
        _ => Word(32, "word"),
    };

    private static StageFormat Word(int bits, string unit) => Word(bits, unit, (int)((1L << (bits - 1)) - 1));

    private static StageFormat Word(int bits, string unit, int rail) => new(bits, 0, rail, unit);
}
