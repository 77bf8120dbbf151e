// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>What speaks for each heart rate, from window to window: the best path that ends there (Viterbi 1967, forward half).</summary>
/// <remarks>
/// Input: evidence of each state, 256 log2 of a likelihood, 13 bits.
/// Product: none.
/// Accumulator: 16 bits; the best state has 0, none falls below −1200.
/// Worst case: −1200 + evidence of −2^13, clipped back to −1200.
/// Output: the best state, and by how much it is ahead of any that is not its neighbour.
/// </remarks>
public struct RateTrack
{
    // A path may change by one bin (3 bpm) in two seconds almost freely, by two at a price; a new one can take over within a dozen seconds.
    private const int OneBin = 24;
    private const int TwoBins = 120;
    private const int Lowest = -1200;

    // Windows of 8 s every 2 s share three quarters of their samples: a quarter of the evidence is new.
    private const int NewShareShift = 2;

    private Half80 _scores;
    private int _states;

    /// <summary>The best state.</summary>
    public int Best { get; private set; }

    /// <summary>By how much it is ahead of all states that lie beyond <see cref="Neighbours"/>, 256 log2.</summary>
    public int Margin { get; private set; }

    /// <summary>States to each side that count as the same peak: half the main lobe of the window, and one.</summary>
    public const int Neighbours = 4;

    /// <summary>Sets the number of states and forgets.</summary>
    /// <param name="states">1 to 80.</param>
    public void Restart(int states)
    {
        this = default;
        _states = states;
    }

    /// <summary>Takes the evidence of a window.</summary>
    /// <param name="evidence">Of each state.</param>
    public void Add(in Half80 evidence)
    {
        Half80 next = default;
        int top = int.MinValue;
        int best = 0;
        for (int s = 0; s < _states; s++)
        {
            int score = _scores[s];
            score = Better(score, s - 1, OneBin);
            score = Better(score, s + 1, OneBin);
            score = Better(score, s - 2, TwoBins);
            score = Better(score, s + 2, TwoBins);
            score += Shift.Round(evidence[s], NewShareShift);
            next[s] = (short)score;
            if (score > top)
            {
                top = score;
                best = s;
            }
        }

        int other = Lowest;
        for (int s = 0; s < _states; s++)
        {
            int score = next[s] - top;
            score = score < Lowest ? Lowest : score;
            _scores[s] = (short)score;
            other = Sat.Abs32(s - best) > Neighbours && score > other ? score : other;
        }

        Best = best;
        Margin = -other;
    }

    private readonly int Better(int score, int from, int price)
    {
        if ((uint)from >= (uint)_states)
        {
            return score;
        }

        int other = _scores[from] - price;
        return other > score ? other : score;
    }
}
