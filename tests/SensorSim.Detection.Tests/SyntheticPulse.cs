// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests;

/// <summary>The two-Gaussian pulse of Tang et al. 2020, template "excellent", one pulse after the other on a steady level of light.</summary>
/// <remarks>
/// z(θ) = Σ a exp(−(θ − θi)² / (2 b²)), θ from −π to π over a beat, summed over neighbouring beats. Parameters: table 1 of the paper.
/// The places as a fraction of the beat below are computed from that formula (minimum, steepest point, tangent, peak).
/// </remarks>
internal sealed class SyntheticPulse
{
    public const double FootFraction = 0.0641;
    public const double SteepestFraction = 0.15940;
    public const double PeakFraction = 0.26081;
    public const double Height = 0.97754;

    public int RateHz { get; init; } = 100;

    public double BeatS { get; init; } = 1;

    public double AmplitudeCodes { get; init; } = 2000;

    public int Polarity { get; init; } = 1;

    /// <summary>20 log10 of (height / 2√2) over the rms of white noise; 999 for none.</summary>
    public double SnrDb { get; init; } = 999;

    public double OffsetS { get; init; } = 0.2137;

    public double BreathingShare { get; init; }

    public int[] Make(double durationS, int seed)
    {
        var random = new Random(seed);
        var codes = new int[(int)(durationS * RateHz)];
        double rms = SnrDb > 900 ? 0 : Height / (2 * Math.Sqrt(2)) / Math.Pow(10, SnrDb / 20);
        for (int i = 0; i < codes.Length; i++)
        {
            double t = (double)i / RateHz;
            double beats = (t - OffsetS) / BeatS;
            double theta = ((beats - Math.Floor(beats)) * 2 * Math.PI) - Math.PI;
            double pulse = 0;
            for (int k = -1; k <= 1; k++)
            {
                pulse += Wave(theta + (2 * Math.PI * k));
            }

            double size = 1 + (BreathingShare * Math.Sin(2 * Math.PI * 0.23 * t));
            double filling = (pulse * size) + (rms * SyntheticEcg.Normal(random));
            codes[i] = (int)Math.Round(Polarity * (300_000 - (AmplitudeCodes * filling)));
        }

        return codes;
    }

    private static double Wave(double theta)
    {
        double u = (theta + 1.5161) / 0.6303;
        double v = (theta - 0.8186) / 1.0225;
        return Math.Exp(-u * u / 2) + (0.1999 * Math.Exp(-v * v / 2));
    }
}
