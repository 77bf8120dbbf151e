// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>Candidates of random events at a fixed mean rate, a Poisson process: whoever thins them moves none of them.</summary>
/// <remarks>
/// Time is cut into cells of a second. The number of candidates in a cell follows Poisson's law by inversion of one uniform draw, their places
/// are even over the cell; both together are a Poisson process (textbook). Each candidate has its own draws by number. Those that decide, the
/// number and who is kept, stand together at the begin of a cell and are made at once.
/// </remarks>
/// <param name="random">Its own source.</param>
/// <param name="meanPerSecond">Mean number in a second, at most 8.</param>
internal sealed class CandidateCells(KeyedRandom random, double meanPerSecond)
{
    /// <summary>Draws of a candidate; draw 0 is its place, draw 1 says whether it is kept.</summary>
    public const int Draws = 8;

    /// <summary>Most candidates in a cell.</summary>
    /// <remarks>Of a mean of 8 more than 40 come once in 10^15 cells: they are left out.</remarks>
    public const int Most = 40;

    private const int Together = 16;

    // The number of candidates, the draws that keep them, then what else each one has.
    private const int FirstOther = 3 * Together;
    private const long PerCell = FirstOther + (Most * Draws);
    private readonly double[] _cumulative = Cumulative(meanPerSecond);

    /// <summary>Mean number in a second.</summary>
    public double MeanPerSecond => meanPerSecond;

    /// <summary>Number of candidates in a cell.</summary>
    /// <param name="cell">Number of the cell: it begins at as many seconds.</param>
    public int Count(long cell) => CountOf(random.Uniform(cell * PerCell));

    /// <summary>The candidates of a cell that are kept, in their order.</summary>
    /// <param name="cell">Number of the cell: it begins at as many seconds.</param>
    /// <param name="chance">Probability of each to be kept.</param>
    /// <param name="kept">Receives their numbers; as long as <see cref="Most"/>.</param>
    /// <returns>How many there are.</returns>
    public int Kept(long cell, double chance, Span<int> kept)
    {
        Span<uint> words = stackalloc uint[Together];
        random.FillWords(words, cell * PerCell);
        int count = CountOf(Uniform(words[0]));

        // Most are not kept: no branch waits for who is.
        double least = Math.Ceiling((chance * 4294967296.0) - 0.5);
        int found = 0;
        for (int k = 0; k < count; k++)
        {
            int place = (k + 1) % Together;
            if (place == 0)
            {
                random.FillWords(words, (cell * PerCell) + k + 1);
            }

            kept[found] = k;
            found += words[place] < least ? 1 : 0;
        }

        return found;
    }

    /// <summary>A draw of a candidate, even between 0 and 1.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="candidate">Number of the candidate within it.</param>
    /// <param name="draw">Number of the draw, below <see cref="Draws"/>.</param>
    public double Uniform(long cell, int candidate, int draw) => random.Uniform(
        (cell * PerCell) + (draw == 1 ? candidate + 1 : FirstOther + (candidate * Draws) + draw));

    /// <summary>All draws of a candidate but draw 1, made at once.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="candidate">Number of the candidate within it.</param>
    /// <param name="draws">Receives draw n, even between 0 and 1, in element n; element 1 is none of them.</param>
    public void Fill(long cell, int candidate, Span<double> draws)
    {
        Span<uint> words = stackalloc uint[Draws];
        random.FillWords(words, (cell * PerCell) + FirstOther + (candidate * Draws));
        for (int i = 0; i < Draws; i++)
        {
            draws[i] = Uniform(words[i]);
        }
    }

    /// <summary>Time of a candidate [s].</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="candidate">Number of the candidate within it.</param>
    public double Seconds(long cell, int candidate) => cell + Uniform(cell, candidate, 0);

    // The cumulative probabilities that a draw has passed.
    private int CountOf(double u)
    {
        Vector256<long> passed = Vector256<long>.Zero;
        var draw = Vector256.Create(u);
        foreach (Vector256<double> four in MemoryMarshal.Cast<double, Vector256<double>>(_cumulative))
        {
            passed -= Vector256.GreaterThanOrEqual(draw, four).AsInt64();
        }

        return (int)(passed.GetElement(0) + passed.GetElement(1) + passed.GetElement(2) + passed.GetElement(3));
    }

    // As KeyedRandom.Uniform has it.
    private static double Uniform(uint word) => (word + 0.5) * (1.0 / 4294967296.0);

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
