// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Beats of the library beside those of the twin.</summary>
/// <param name="Beats">Beats of the twin.</param>
/// <param name="Differ">Beats that only one of both has, or that are more than 1 ms apart.</param>
/// <param name="Wide">Beats of both that only one calls wide.</param>
/// <param name="SquareSum">Sum of the squares of the differences of the times of the others [ms²].</param>
/// <param name="WorstMs">Largest of them [ms].</param>
internal readonly record struct BeatCosts(int Beats, int Differ, int Wide, double SquareSum, double WorstMs)
{
    private const double SameMs = 1;

    /// <summary>Root of the mean square of the differences [ms].</summary>
    public double RmsMs => Math.Sqrt(SquareSum / Math.Max(1, Beats - Differ));

    public static BeatCosts operator +(BeatCosts a, BeatCosts b) => new(
        a.Beats + b.Beats, a.Differ + b.Differ, a.Wide + b.Wide, a.SquareSum + b.SquareSum, Math.Max(a.WorstMs, b.WorstMs));

    /// <summary>Compares; both in order.</summary>
    public static BeatCosts Of((double TimeS, bool IsWide)[] library, (double TimeS, bool IsWide)[] twin)
    {
        int same = 0;
        int wide = 0;
        double squares = 0;
        double worst = 0;
        foreach ((double timeS, bool isWide) in library)
        {
            (double TimeS, bool IsWide) near = twin.MinBy(t => Math.Abs(t.TimeS - timeS));
            double apartMs = 1000 * Math.Abs(near.TimeS - timeS);
            if (apartMs <= SameMs)
            {
                same++;
                wide += near.IsWide != isWide ? 1 : 0;
                squares += apartMs * apartMs;
                worst = Math.Max(worst, apartMs);
            }
        }

        return new BeatCosts(twin.Length, Math.Max(library.Length, twin.Length) - same, wide, squares, worst);
    }
}
