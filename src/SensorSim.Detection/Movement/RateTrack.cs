// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>What speaks for each heart rate, from window to window: the best path that ends there (Viterbi 1967, forward half).</summary>
/// <remarks>
/// Input: evidence of each state, 256 log2 of a likelihood, 13 bits.
/// Product: none.
/// Accumulator: 32 bits; kept as arrears to the best, which has 0, in eighths of that: 8 bits.
/// Worst case: arrears clip at 150 × 8 = 1200.
/// Output: the best state, and by how much it is ahead of any that is not its neighbour.
/// </remarks>
public struct RateTrack
{
    // In 32 log2. A path may change by one bin (3 bpm) in two seconds almost freely, by two at a price; a new one can take over within a dozen
    // seconds.
    private const int OneBin = 3;
    private const int TwoBins = 15;
    private const int Most = 150;

    // Windows of 8 s every 2 s share three quarters of their samples: a quarter of the evidence is new.
    private const int NewShareShift = 2 + UnitShift;

    private const int UnitShift = 3;

    private Byte80 _arrears;
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
        int least = int.MaxValue;
        int best = 0;
        for (int s = 0; s < _states; s++)
        {
            int arrears = _arrears[s];
            arrears = Better(arrears, s - 1, OneBin);
            arrears = Better(arrears, s + 1, OneBin);
            arrears = Better(arrears, s - 2, TwoBins);
            arrears = Better(arrears, s + 2, TwoBins);
            arrears -= Shift.Round(evidence[s], NewShareShift);
            next[s] = (short)arrears;
            if (arrears < least)
            {
                least = arrears;
                best = s;
            }
        }

        int other = Most;
        for (int s = 0; s < _states; s++)
        {
            int arrears = next[s] - least;
            arrears = arrears < Most ? arrears : Most;
            _arrears[s] = (byte)arrears;
            other = Sat.Abs32(s - best) > Neighbours && arrears < other ? arrears : other;
        }

        Best = best;
        Margin = other << UnitShift;
    }

    private readonly int Better(int arrears, int from, int price)
    {
        if (from < 0 || from >= _states)
        {
            return arrears;
        }

        int other = _arrears[from] + price;
        return other < arrears ? other : arrears;
    }
}
