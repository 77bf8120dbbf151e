// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Tells whether the rhythm is irregular without order, as in atrial fibrillation: sample entropy of the last 32 RR intervals.</summary>
/// <remarks>
/// <para>
/// Sample entropy asks: of the pairs of places where m intervals match within r, how many match in the next one too? (Richman and Moorman
/// 2000; for short ECG strips with r tied to the mean RR interval: Lake and Moorman 2011; both from memory.) With r a twelfth of the mean,
/// random intervals of a spread of 15 % and more match again in fewer than 3/8 of the cases; ectopic beats in a steady rhythm match
/// again, for their coupling and pause do; deep respiratory arrhythmia needs m = 2, which knows whether the rate is rising or falling. So both
/// m = 1 and m = 2 have to be low. Intervals beside a beat that is not normal are missing and match nothing.
/// </para>
/// Input: places in 1/256 tick; intervals become quarters of a millisecond in 16 bits.
/// Product: none.
/// Accumulator: counts of at most 465 pairs.
/// Worst case: 496 pairs are compared, every fourth beat; the rest is logic on words of 32 places.
/// Output: a state; two decisions in a row, so 8 beats, change it. First one after 32 intervals.
/// </remarks>
public struct RhythmCheck
{
    private const int Kept = Half32.Length;
    private const int Least = 24;
    private const int StepsPerSecond = 4000;
    private const int Longest = ushort.MaxValue;
    private const int Every = 4;
    private const int Agree = 2;

    private Half32 _intervals;
    private BeatClock _clock;
    private long _last256;
    private byte _at;
    private byte _held;
    private byte _sinceLook;
    private byte _votes;
    private bool _hasLast;
    private bool _wasNormal;

    /// <summary>Whether the rhythm is irregular; false while nothing is known.</summary>
    public bool IsIrregular { get; private set; }

    /// <summary>Whether enough intervals came since the gate opened to say so.</summary>
    public readonly bool IsKnown => _held == Kept;

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        this = default;
        _clock.Start(clock);
    }

    /// <summary>The gate has shut: nothing is claimed until 32 intervals have come anew.</summary>
    /// <returns>Whether <see cref="IsIrregular"/> has changed.</returns>
    public bool Shut()
    {
        bool isChanged = IsIrregular;
        IsIrregular = false;
        _held = 0;
        _votes = 0;
        _sinceLook = 0;
        _hasLast = false;
        return isChanged;
    }

    /// <summary>Takes a beat; call it only while the gate is open.</summary>
    /// <param name="ticks256">Its R peak [1/256 tick].</param>
    /// <param name="startsRun">Whether there is no interval to it.</param>
    /// <param name="isNormal">Whether it is neither wide nor paced.</param>
    /// <returns>Whether <see cref="IsIrregular"/> has changed.</returns>
    public bool Add(long ticks256, bool startsRun, bool isNormal)
    {
        int interval = _hasLast ? _clock.Steps(_clock.Span(_last256, ticks256), StepsPerSecond) : 0;
        bool isFirst = !_hasLast;
        bool isUsable = !isFirst && !startsRun && isNormal && _wasNormal && interval < Longest;
        _last256 = ticks256;
        _hasLast = true;
        _wasNormal = isNormal;
        if (isFirst)
        {
            return false;
        }

        _intervals[_at] = (ushort)(isUsable ? interval : 0);
        _at = (byte)((_at + 1) & (Kept - 1));
        _held = (byte)(_held < Kept ? _held + 1 : Kept);
        _sinceLook++;
        if (_held < Kept || _sinceLook < Every)
        {
            return false;
        }

        _sinceLook = 0;
        return Look();
    }

    private bool Look()
    {
        uint sum = 0;
        uint count = 0;
        for (int i = 0; i < Kept; i++)
        {
            sum += _intervals[i];
            count += _intervals[i] == 0 ? 0u : 1u;
        }

        if (count < Least)
        {
            _votes = 0;
            return false;
        }

        Matches matches = Count(LongDivision.Rounded(sum, 12 * count));
        bool isLow = 8 * matches.Two <= 3 * matches.One && 2 * matches.Three <= matches.TwoAsked;
        bool isHigh = 2 * matches.Two > matches.One || 8 * matches.Three > 5 * matches.TwoAsked;
        bool isAgainst = IsIrregular ? isHigh : isLow;
        _votes = (byte)(isAgainst ? _votes + 1 : 0);
        if (_votes < Agree)
        {
            return false;
        }

        _votes = 0;
        IsIrregular = !IsIrregular;
        return true;
    }

    /// <summary>How many pairs of places match in one, in two and in three intervals in a row.</summary>
    private readonly Matches Count(int near)
    {
        // A word for each place: a bit for each later one that it matches.
        Mask32 like = default;
        uint present = 0;
        for (int i = Kept - 1; i >= 0; i--)
        {
            // Missing intervals are 0 and match nothing.
            like[i] = Like(i, near) & present;
            present |= At(i) == 0 ? 0 : 1u << i;
        }

        Matches matches = default;
        for (int i = 0; i < Kept - 1; i++)
        {
            // Bit j speaks of the pair i and j; its neighbours after both come to the same place by a shift.
            uint one = IsMissing(present, i + 1) ? 0 : like[i] & (present >> 1);
            uint two = one & (like[i + 1] >> 1);
            matches.One += BitOperations.PopCount(one);
            matches.Two += BitOperations.PopCount(two);

            // The last place has no third: such pairs say nothing about the second question.
            uint asked = i + 2 >= Kept || IsMissing(present, i + 2) ? 0 : two & (present >> 2);
            matches.TwoAsked += BitOperations.PopCount(asked);
            matches.Three += asked == 0 ? 0 : BitOperations.PopCount(asked & (like[i + 2] >> 2));
        }

        return matches;
    }

    private readonly uint Like(int place, int near)
    {
        int one = At(place);
        uint bits = 0;
        for (int j = place + 1; j < Kept; j++)
        {
            int other = At(j);
            uint isLike = Sat.Abs32(one - other) <= near ? 1u : 0u;
            bits |= isLike << j;
        }

        return one == 0 ? 0 : bits;
    }

    private readonly int At(int place) => _intervals[(_at + place) & (Kept - 1)];

    private static bool IsMissing(uint present, int place) => ((present >> place) & 1) == 0;

    private struct Matches
    {
        public int One;
        public int Two;
        public int TwoAsked;
        public int Three;
    }
}
