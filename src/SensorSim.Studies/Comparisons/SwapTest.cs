// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Studies.Comparisons;

/// <summary>
/// Randomisation test of pairs: were the two alike, each pair could as well have stood the other way round. The share of all ways to swap pairs that give a
/// statistic at least as far from 0 as the one seen. Exact for any number of pairs, however rarely the two differ.
/// </summary>
/// <remarks>Source: Fisher RA, The Design of Experiments, 1935, section 21 (from memory).</remarks>
public static class SwapTest
{
    private const double Tie = 1e-9;

    /// <summary>Two-sided probability.</summary>
    /// <param name="pairs">Pairs, 1 to 2³⁰.</param>
    /// <param name="statistic">The statistic when some pairs are swapped; swapping all turns its sign. Not a number where it is undefined: such a way counts as further off.</param>
    /// <param name="mostExactPairs">Up to so many pairs every way is tried (at most 24), else some are drawn.</param>
    /// <param name="draws">Ways drawn, the one seen counted on top.</param>
    /// <param name="seed">Seed of the draws.</param>
    public static double P(int pairs, Func<bool[], double> statistic, int mostExactPairs = 12, int draws = 9999, ulong seed = 1)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(pairs, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(mostExactPairs, 24);
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 1);
        ArgumentNullException.ThrowIfNull(statistic);
        var isSwapped = new bool[pairs];
        double seen = Math.Abs(statistic(isSwapped));
        if (!(seen > 0))
        {
            return 1;
        }

        // Sums in another order differ in their last bits; what is equal must count as equal.
        double least = seen * (1 - Tie);
        return pairs <= mostExactPairs ? Exact(isSwapped, statistic, least) : Drawn(isSwapped, statistic, least, draws, seed);
    }

    // The last pair stays as it is: swapping all gives the same magnitude.
    private static double Exact(bool[] isSwapped, Func<bool[], double> statistic, double least)
    {
        long ways = 1L << (isSwapped.Length - 1);
        long asFar = 0;
        for (long way = 0; way < ways; way++)
        {
            for (int i = 0; i < isSwapped.Length - 1; i++)
            {
                isSwapped[i] = ((way >> i) & 1) == 1;
            }

            asFar += Math.Abs(statistic(isSwapped)) < least ? 0 : 1;
        }

        return (double)asFar / ways;
    }

    private static double Drawn(bool[] isSwapped, Func<bool[], double> statistic, double least, int draws, ulong seed)
    {
        var random = new KeyedRandom(seed, "studies.swaps");
        var words = new uint[(isSwapped.Length + 31) / 32];
        long asFar = 1;
        for (int draw = 0; draw < draws; draw++)
        {
            random.FillWords(words, (long)draw * words.Length);
            for (int i = 0; i < isSwapped.Length; i++)
            {
                isSwapped[i] = ((words[i >> 5] >> (i & 31)) & 1) == 1;
            }

            asFar += Math.Abs(statistic(isSwapped)) < least ? 0 : 1;
        }

        return (double)asFar / (draws + 1);
    }
}
