// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Spot arrival time: the median of at least 20 paired beats of the last 30 s, and their spread; every 5 s.</summary>
/// <remarks>
/// <para>
/// Six blocks of 5 s. Above 96 pairs a minute the 48 places do not hold 30 s: the oldest blocks are dropped whole and the window says so. The spread is
/// the distance of the quartiles over 1.349, which for a normal law is its standard deviation (textbook) and which strays do not move.
/// Trust: 255 less 32 for each ms of the median's own uncertainty, 1.25 × spread / √n (textbook), in steps of 1/32 ms; 0 is never said.
/// </para>
/// Input: thousandths of a millisecond, below 524,288.
/// Product: quartile distance × 48,577 (1 / 1.349 in Q0.16), 32 bits unsigned.
/// Accumulator: 16 bits in steps of 8 µs, rounded to nearest.
/// Worst case: 48 numbers sorted by insertion, every 5 s.
/// Output: thousandths of a millisecond, within 4 µs.
/// </remarks>
public struct ArrivalSpot
{
    private const int BlockMs = 5000;
    private const int Blocks = 6;
    private const int Least = 20;
    private const int Steps = 3;

    private Half48 _times;
    private Byte8 _counts;
    private long _block256;
    private long _blockEnd256;
    private long _end256;
    private long _last256;
    private long _length256;
    private int _medianUs;
    private int _spreadUs;
    private byte _at;
    private byte _held;
    private byte _blocks;
    private byte _quality;

    /// <summary>The median; quality 0 until there was one.</summary>
    public readonly Reading Latest => new(ReadingKind.ArrivalSpot, _medianUs, _quality, _end256, _length256);

    /// <summary>The spread of the beats that it is made of, as a standard deviation.</summary>
    public readonly Reading Spread => Latest with { Kind = ReadingKind.ArrivalSpread, ValueMilli = _spreadUs };

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        this = default;
        _block256 = clock.Ticks256(BlockMs);
    }

    /// <summary>Takes an arrival time.</summary>
    /// <param name="arrival">The reading of one beat.</param>
    /// <returns>Whether there is a new value.</returns>
    public bool Add(in Reading arrival)
    {
        bool isNew = false;
        if (_blockEnd256 == 0)
        {
            _blockEnd256 = arrival.Ticks256 + _block256;
            _blocks = 1;
        }

        if (arrival.Ticks256 >= _blockEnd256)
        {
            // What the block brought is judged once, unless the pair after it comes so late that it is old; after a long silence
            // nothing of before is left.
            isNew = arrival.Ticks256 - _last256 < _block256 && Evaluate();
            bool isLong = arrival.Ticks256 - _blockEnd256 >= _block256 * Blocks;
            _blocks = isLong ? (byte)1 : _blocks;
            _held = isLong ? (byte)0 : _held;
            _counts[0] = isLong ? (byte)0 : _counts[0];
            _blockEnd256 = isLong ? arrival.Ticks256 + _block256 : _blockEnd256;
            while (arrival.Ticks256 >= _blockEnd256)
            {
                NextBlock();
            }
        }

        // The oldest block may be empty, after a silence: then dropping it makes no room.
        while (_held == Half48.Length)
        {
            Drop();
        }

        _times[_at] = (ushort)Shift.Round(arrival.ValueMilli, Steps);
        _at = (byte)(_at + 1 == Half48.Length ? 0 : _at + 1);
        _held++;
        _counts[_blocks - 1]++;
        _last256 = arrival.Ticks256;
        return isNew;
    }

    private void NextBlock()
    {
        _blockEnd256 += _block256;
        if (_blocks == Blocks)
        {
            Drop();
        }

        _counts[_blocks] = 0;
        _blocks++;
    }

    /// <summary>Drops the oldest block.</summary>
    private void Drop()
    {
        _held -= _counts[0];
        for (int i = 1; i < _blocks; i++)
        {
            _counts[i - 1] = _counts[i];
        }

        _blocks--;
        if (_blocks == 0)
        {
            // More beats in one block than there is room for: what is kept starts here.
            _blocks = 1;
            _counts[0] = 0;
            _held = 0;
        }
    }

    private bool Evaluate()
    {
        if (_held < Least)
        {
            return false;
        }

        Half48 sorted = default;
        for (int i = 0; i < _held; i++)
        {
            int from = _at - _held + i;
            ushort value = _times[from < 0 ? from + Half48.Length : from];
            int to = i;
            while (to > 0 && sorted[to - 1] > value)
            {
                sorted[to] = sorted[to - 1];
                to--;
            }

            sorted[to] = value;
        }

        int middle = Shift.Floor(_held, 1);
        _medianUs = ((_held & 1) != 0 ? 2 * sorted[middle] : sorted[middle] + sorted[middle - 1]) << (Steps - 1);
        int lower = Quantile(sorted, _held - 1);
        int upper = Quantile(sorted, 3 * (_held - 1));
        _spreadUs = (int)(((ulong)(uint)(upper - lower) * 48_577) >> 16);

        // It ends at a pair: behind it contact may be lost.
        _end256 = _last256;
        _length256 = (_block256 * _blocks) - (_blockEnd256 - _last256);

        // 1.25 × spread / √n in 1/32 ms: spread × 5/4 × 32/1000 / √n = spread / (25 √n); √n in Q4.4.
        uint root = IntegerRoot.Floor((uint)_held << 8);
        int uncertain = LongDivision.Rounded((ulong)(uint)_spreadUs * 16, 25 * root);
        _quality = (byte)(uncertain > 254 ? 1 : 255 - uncertain);
        return true;
    }

    /// <summary>Value at a place given in quarters, with a straight line between two [1/1000 ms].</summary>
    private static int Quantile(in Half48 sorted, int quarters)
    {
        int place = Shift.Floor(quarters, 2);
        int rest = quarters & 3;
        int next = rest == 0 ? sorted[place] : sorted[place + 1];
        return ((sorted[place] * (4 - rest)) + (next * rest)) << (Steps - 2);
    }
}
