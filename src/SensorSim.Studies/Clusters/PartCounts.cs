// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Clusters;

/// <summary>Into how many parts a study is cut.</summary>
public static class PartCounts
{
    /// <summary>Shortest part worth a place in the queue [s]: a scheduler spends about a second on each.</summary>
    public const double ShortestPartS = 10;

    /// <summary>The number of parts.</summary>
    /// <param name="wanted">Parts that the user wants at most, at least 1.</param>
    /// <param name="runCount">Runs of the study.</param>
    /// <param name="secondsPerRun">What a run takes on one core [s], above 0.</param>
    /// <param name="coresPerPart">Cores of each part.</param>
    /// <param name="shortestPartS">Shortest part [s].</param>
    /// <returns>At most <paramref name="wanted"/>; fewer when parts would be shorter than that; at least 1.</returns>
    public static int Of(int wanted, long runCount, double secondsPerRun, int coresPerPart, double shortestPartS = ShortestPartS)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(wanted, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(coresPerPart, 1);
        double most = Math.Floor(runCount * secondsPerRun / coresPerPart / shortestPartS);
        return (int)Math.Clamp(most, 1, Math.Min(wanted, Math.Max(1, runCount)));
    }
}
