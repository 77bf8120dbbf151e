// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Times found against times of truth, matched one to one within 150 ms, nearest first by truth.</summary>
/// <param name="Matched">Found.</param>
/// <param name="Missed">Not found.</param>
/// <param name="Extra">Found where there is nothing.</param>
/// <param name="ErrorSum">Sum of found − true [ms].</param>
/// <param name="SquareSum">Sum of its squares [ms²].</param>
internal readonly record struct TwinScore(int Matched, int Missed, int Extra, double ErrorSum, double SquareSum)
{
    private const double WindowS = 0.15;

    public double BiasMs => ErrorSum / Matched;

    public double SdMs => Math.Sqrt(Math.Max(0, (SquareSum / Matched) - (BiasMs * BiasMs)));

    public double SensitivityPercent => 100.0 * Matched / (Matched + Missed);

    public double PredictivityPercent => Matched + Extra == 0 ? double.NaN : 100.0 * Matched / (Matched + Extra);

    public static TwinScore operator +(TwinScore a, TwinScore b) => new(
        a.Matched + b.Matched, a.Missed + b.Missed, a.Extra + b.Extra, a.ErrorSum + b.ErrorSum, a.SquareSum + b.SquareSum);

    /// <summary>Compares from a time on; truth outside only excuses what lies near it.</summary>
    public static TwinScore Of(double[] truth, double[] found, double fromS, double untilS)
    {
        var taken = new bool[found.Length];
        var score = default(TwinScore);
        foreach (double t in truth.Where(t => t >= fromS && t < untilS))
        {
            int[] near = [.. Enumerable.Range(0, found.Length).Where(i => !taken[i] && Math.Abs(found[i] - t) <= WindowS)];
            if (near.Length == 0)
            {
                score += new TwinScore(0, 1, 0, 0, 0);
                continue;
            }

            int nearest = near.MinBy(i => Math.Abs(found[i] - t));
            taken[nearest] = true;
            double errorMs = (found[nearest] - t) * 1000;
            score += new TwinScore(1, 0, 0, errorMs, errorMs * errorMs);
        }

        double[] outside = [.. truth.Where(t => t < fromS || t >= untilS)];
        int extra = Enumerable.Range(0, found.Length)
            .Count(i => !taken[i] && found[i] >= fromS && found[i] < untilS && !outside.Any(t => Math.Abs(t - found[i]) <= WindowS));
        return score + new TwinScore(0, 0, extra, 0, 0);
    }
}
