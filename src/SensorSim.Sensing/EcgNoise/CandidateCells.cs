// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>Candidates of random events at a fixed mean rate, a Poisson process: whoever thins them moves none of them.</summary>
/// <remarks>
/// Time is cut into cells of a second. The number of candidates in a cell follows Poisson's law by inversion of one uniform draw, their places
/// are even over the cell; both together are a Poisson process (textbook). Each candidate has its own draws by number.
/// </remarks>
/// <param name="random">Its own source.</param>
/// <param name="meanPerSecond">Mean number in a second, at most 8.</param>
internal sealed class CandidateCells(KeyedRandom random, double meanPerSecond)
{
    /// <summary>Draws of a candidate; draw 0 is its place.</summary>
    public const int Draws = 8;

    // Of a mean of 8 more than 40 come once in 10^15 cells: they are left out.
    private const int Most = 40;
    private const long PerCell = (Most + 1) * Draws;
    private readonly double[] _cumulative = Cumulative(meanPerSecond);

    /// <summary>Mean number in a second.</summary>
    public double MeanPerSecond => meanPerSecond;

    /// <summary>Number of candidates in a cell.</summary>
    /// <param name="cell">Number of the cell: it begins at as many seconds.</param>
    public int Count(long cell)
    {
        double u = random.Uniform((cell * PerCell) + (Most * Draws));
        int count = 0;
        while (count < Most && u >= _cumulative[count])
        {
            count++;
        }

        return count;
    }

    /// <summary>A draw of a candidate, even between 0 and 1.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="candidate">Number of the candidate within it.</param>
    /// <param name="draw">Number of the draw, below <see cref="Draws"/>.</param>
    public double Uniform(long cell, int candidate, int draw) => random.Uniform((cell * PerCell) + (candidate * Draws) + draw);

    /// <summary>Time of a candidate [s].</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="candidate">Number of the candidate within it.</param>
    public double Seconds(long cell, int candidate) => cell + Uniform(cell, candidate, 0);

    // Probability of at most so many.
    private static double[] Cumulative(double mean)
    {
        var sums = new double[Most];
        double term = PortableMath.Exp(-mean);
        double sum = 0;
        for (int i = 0; i < Most; i++)
        {
            sum += term;
            sums[i] = sum;
            term *= mean / (i + 1);
        }

        return sums;
    }
}
