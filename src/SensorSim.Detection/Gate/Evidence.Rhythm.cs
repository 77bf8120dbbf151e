// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Gate;

/// <content>What the intervals and heights say together.</content>
public partial struct Evidence
{
    private void Weigh(bool hadInterval)
    {
        _interval = (short)MedianOf(_intervals, _intervalCount);
        _typical = (short)TypicalHeight();
        int intervalFaults = 0;
        for (int i = 1; i <= _intervalCount; i++)
        {
            intervalFaults += IsNear(IntervalBack(i), Interval) ? 0 : 1;
        }

        int heightFaults = 0;
        for (int i = 1; i <= _heightCount; i++)
        {
            heightFaults += IsAlike(HeightBack(i), _typical) ? 0 : 1;
        }

        HeightFaults = (byte)heightFaults;
        IntervalFaults = (byte)intervalFaults;
        int faults = intervalFaults + heightFaults;
        for (int lag = 2; lag <= 3; lag++)
        {
            int repeated = FaultsOfPattern(lag);
            faults = repeated < faults ? repeated : faults;
        }

        bool isPattern = faults < intervalFaults + heightFaults;
        int unexplained = intervalFaults + heightFaults - CountExcused();
        unexplained = unexplained < 0 ? 0 : unexplained;
        Unexplained = (byte)(unexplained < faults ? unexplained : faults);
        Faults = (byte)faults;
        int now = IntervalBack(1);
        bool isKnown = hadInterval && _intervalCount > 2;
        bool isOdd = isKnown && !IsNear(now, Interval);
        bool isEarly = isOdd && IsShort(now);
        IsDoubtful = !isPattern && (isEarly || (isOdd && !IsAlike(HeightBack(1), _typical)));
        IsCut = isKnown && IsCutAt(1);
        IsBroken = isKnown && IsBrokenAt(1);
        bool isLonger = isOdd && 2 * now > 3 * Interval;

        // While the heart gets faster the median lags: the interval before says more, when it is a regular one.
        int before = _intervalCount > 1 ? IntervalBack(2) : 0;
        int regular = IsNear(before, Interval) && before < Interval ? before : Interval;
        _excess = (byte)(!isLonger ? 0 : 4 * now > 7 * regular && intervalFaults <= 2 ? 2 : 1);
    }

    private readonly int CountExcused()
    {
        int excused = 0;
        for (int i = 1; i < _intervalCount; i++)
        {
            int pause = IntervalBack(i);
            int early = IntervalBack(i + 1);
            if (IsShort(early) && 16 * pause > 19 * Interval && IsNear(early + pause, 2 * Interval))
            {
                excused += IsAlike(HeightBack(i + 1), _typical) ? 2 : 3;
            }
        }

        return excused;
    }

    /// <summary>Faults against the pattern of every second or third beat, as ectopic beats come; two are charged for the looser look.</summary>
    private readonly int FaultsOfPattern(int lag)
    {
        int faults = 2;
        if (_intervalCount < SignedHalf8.Length || _heightCount < SignedHalf8.Length)
        {
            return byte.MaxValue;
        }

        for (int i = 1; i + lag <= SignedHalf8.Length; i++)
        {
            faults += IsNear(IntervalBack(i), IntervalBack(i + lag)) ? 0 : 1;
            faults += IsAlike(HeightBack(i), HeightBack(i + lag)) ? 0 : 1;
        }

        return faults;
    }

    /// <summary>Whether the two intervals up to a number back are one that was cut.</summary>
    private readonly bool IsCutAt(int back)
    {
        int one = IntervalBack(back);
        int two = IntervalBack(back + 1);
        return (IsShort(one) || IsShort(two)) && IsNear(one + two, Interval);
    }

    /// <summary>Whether the intervals up to a number back hold one too many, or lack one, by a height that stands out beside them.</summary>
    private readonly bool IsBrokenAt(int back)
    {
        if (HeightFaults == 0)
        {
            // Sums that fit are common by chance in fibrillation, whose heights are alike.
            return IntervalFaults <= OddWhenRegular && IsCutAt(back);
        }

        int one = IntervalBack(back);
        int two = IntervalBack(back + 1);

        // Two early ones that are alike, but not like the rest, are a couplet.
        bool isCouplet = !IsAlike(HeightBack(back), _typical) && IsAlike(HeightBack(back), HeightBack(back + 1));
        if (IsCutAt(back))
        {
            return !isCouplet;
        }

        // An early one of another height is ectopic when a pause follows, or another of its kind; else it is a stranger.
        bool isStranger = IsShort(two) && !IsAlike(HeightBack(back + 1), _typical) && 16 * one <= 19 * Interval
            && !(IsShort(one) && !IsAlike(HeightBack(back), _typical));
        bool isTwoForThree = IsLong(one) && IsLong(two) && IsClose(one + two, 3 * Interval);
        int three = back + 2 > _intervalCount ? short.MaxValue : IntervalBack(back + 2);
        bool isThreeForTwo = IsShort(one) && IsShort(two) && three < Interval && IsClose(one + two + three, 2 * Interval);
        return isStranger || isTwoForThree || isThreeForTwo;
    }

    /// <summary>Whether a value lies within 1/16 of another.</summary>
    private static bool IsClose(int value, int of) => 16 * (value - of) <= of && 16 * (of - value) <= of;

    private readonly bool IsShort(int interval) => 16 * interval < 13 * Interval;

    private readonly bool IsLong(int interval) => 16 * interval > 19 * Interval && 16 * interval < 28 * Interval;

    private readonly int IntervalBack(int back) => _intervals[(_intervalAt - back) & Mask];

    private readonly int HeightBack(int back) => _heights[(_heightAt - back) & Mask];
}
