// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Mean, SDNN and RMSSD of the normal-to-normal intervals of the last 60 s, every 10 s.</summary>
/// <remarks>
/// <para>
/// A minute, for it is the shortest stretch for which RMSSD is in common use (the Task Force of 1996 asks for 5 minutes; from memory), in six blocks of 10 s, so
/// that memory does not depend on the rate. Left out: intervals beside a beat that is not normal, after a gap, and those more than 20 % off both
/// the accepted interval right before and the running mean of accepted ones (the 20 % rule: Malik et al. 1989, from memory; deep breathing at a high rate
/// needs the first, the interval after an ectopic beat the second). The interval after one
/// that was too short belongs to the early beat too. Five left out in a row are a new rate. RMSSD takes differences of neighbouring accepted intervals only. SDNN divides by n − 1.
/// </para>
/// Input: places in 1/256 tick; intervals become quarters of a millisecond, rounded to nearest.
/// Product: deviation from 1 s, 14 bits, squared: 26 bits.
/// Accumulator: 32 bits a block, saturating; 64 bits over the window, times 62,500.
/// Worst case: intervals below 3 s; differences of neighbours clip at 2.5 s.
/// Output: thousandths of a millisecond; two roots and three long divisions every 10 s, one long division per beat.
/// </remarks>
public struct RrVariability
{
    private const int BlockMs = 10_000;
    private const int StepsPerSecond = 4000;

    // Deviations are taken from one second: those of intervals below 3 s never clip, and their squares fit 32 bits a block.
    private const int Reference = StepsPerSecond;
    private const int LargestDeviation = 10_000;
    private const int LongestInterval = 3 * StepsPerSecond;
    private const int LeastIntervals = 20;
    private const int Restart = 5;

    private Blocks _blocks;
    private BeatClock _clock;
    private long _block256;
    private long _blockEnd256;
    private long _last256;
    private int _meanUs;
    private int _sdnnUs;
    private int _rmssdUs;
    private int _typical;
    private int _before;
    private byte _quality;
    private byte _at;
    private byte _filled;
    private byte _outliers;
    private bool _hasLast;
    private bool _wasNormal;
    private bool _wasEarly;
    private long _end256;

    /// <summary>Mean interval; quality 0 until there was one.</summary>
    public readonly Reading Mean => Say(ReadingKind.RrMean, _meanUs);

    /// <summary>Standard deviation of the intervals, divisor n − 1.</summary>
    public readonly Reading Sdnn => Say(ReadingKind.Sdnn, _sdnnUs);

    /// <summary>Root mean square of the differences of neighbouring intervals.</summary>
    public readonly Reading Rmssd => Say(ReadingKind.Rmssd, _rmssdUs);

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        this = default;
        _clock.Start(clock);
        _block256 = clock.Ticks256(BlockMs);
    }

    /// <summary>Takes a beat.</summary>
    /// <param name="ticks256">Its R peak [1/256 tick].</param>
    /// <param name="startsRun">Whether there is no interval to it.</param>
    /// <param name="isNormal">Whether it is neither wide nor paced, and no gap was bridged before it.</param>
    /// <returns>Whether there are new values.</returns>
    public bool Add(long ticks256, bool startsRun, bool isNormal)
    {
        bool isNew = false;
        if (!_hasLast)
        {
            _blockEnd256 = ticks256 + _block256;
        }

        if (ticks256 >= _blockEnd256 + (_block256 * Blocks.Length))
        {
            // After a minute of silence nothing of before is left.
            _blocks = default;
            _filled = 0;
            _blockEnd256 = ticks256 + _block256;
        }

        while (ticks256 >= _blockEnd256)
        {
            isNew |= Close();
        }

        int interval = _hasLast ? _clock.Steps(_clock.Span(_last256, ticks256), StepsPerSecond) : 0;
        bool isCandidate = !startsRun && _hasLast && isNormal && _wasNormal && interval > 0 && interval < LongestInterval;
        _last256 = ticks256;
        _hasLast = true;
        _wasNormal = isNormal;
        ref Block block = ref _blocks[_at];
        block.Seen = (byte)(block.Seen < byte.MaxValue ? block.Seen + 1 : byte.MaxValue);
        if (!isCandidate || !IsTypical(interval))
        {
            _before = 0;
            return isNew;
        }

        int deviation = interval - Reference;
        block.Sum += deviation;
        block.Squares = Add(block.Squares, (uint)(deviation * deviation));
        block.Count++;
        if (_before != 0)
        {
            int difference = Sat.Narrow(interval - _before, LargestDeviation);
            block.Differences = Add(block.Differences, (uint)(difference * difference));
            block.Pairs++;
        }

        _before = interval;
        return isNew;
    }

    private static uint Add(uint sum, uint value) => sum > uint.MaxValue - value ? uint.MaxValue : sum + value;

    private bool IsTypical(int interval)
    {
        bool isNearMean = _typical == 0 || Sat.Abs32(interval - _typical) * 5 <= _typical;
        bool isNearLast = _before != 0 && Sat.Abs32(interval - _before) * 5 <= _before;
        bool isBeside = _wasEarly;
        _wasEarly = !isNearMean && !isNearLast && interval < _typical;
        if ((!isNearMean && !isNearLast) || isBeside)
        {
            _outliers++;
            if (_outliers >= Restart)
            {
                _outliers = 0;
                _typical = interval;
            }

            return false;
        }

        _outliers = 0;
        _typical = _typical == 0 ? interval : _typical + Shift.Round(interval - _typical, 2);
        return true;
    }

    private bool Close()
    {
        _filled = (byte)(_filled < Blocks.Length ? _filled + 1 : Blocks.Length);
        bool isGiven = _filled == Blocks.Length && Evaluate();
        _at = (byte)(_at + 1 == Blocks.Length ? 0 : _at + 1);
        _blocks[_at] = default;
        _end256 = isGiven ? _blockEnd256 : _end256;
        _blockEnd256 += _block256;
        return isGiven;
    }

    private bool Evaluate()
    {
        long sum = 0;
        ulong squares = 0;
        ulong differences = 0;
        uint count = 0;
        uint pairs = 0;
        uint seen = 0;
        for (int i = 0; i < Blocks.Length; i++)
        {
            ref readonly Block block = ref _blocks[i];
            sum += block.Sum;
            squares += block.Squares;
            differences += block.Differences;
            count += block.Count;
            pairs += block.Pairs;
            seen += block.Seen;
        }

        // Where half of the intervals are left out, what remains says nothing about the rhythm.
        if (count < LeastIntervals || pairs == 0 || 2 * count < seen)
        {
            return false;
        }

        // In quarters of a millisecond; 250 and 250² make thousandths.
        bool isBelow = sum < 0;
        int mean = (int)Wide.Divide((ulong)(isBelow ? -sum : sum) * 250, count);
        _meanUs = (Reference * 250) + (isBelow ? -mean : mean);
        ulong spread = (squares * count) - (ulong)(sum * sum);
        int shift = Wide.Bits(spread) - 46;
        shift = shift < 0 ? 0 : shift;
        ulong variance = Wide.Divide((spread >> shift) * 62_500, count * (count - 1));
        _sdnnUs = (int)Wide.Root(variance << shift);
        _rmssdUs = (int)Wide.Root(Wide.Divide(differences * 62_500, pairs));

        // All intervals used are worth 255, half of them nothing.
        _quality = (byte)LongDivision.Rounded(255UL * ((2 * (count < seen ? count : seen)) - seen), seen);
        return true;
    }

    private readonly Reading Say(ReadingKind kind, int valueUs) => new(kind, valueUs, _quality, _end256, _block256 * Blocks.Length);

    private struct Block
    {
        public int Sum;
        public uint Squares;
        public uint Differences;
        public byte Count;
        public byte Pairs;
        public byte Seen;
    }

    [InlineArray(Length)]
    private struct Blocks
    {
        public const int Length = 6;
        private Block _first;
    }
}
