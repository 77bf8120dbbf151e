// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Links.Damage;

/// <summary>One direction of a damaged link: bytes go in, frames are found in them by their 00, what is left of them comes out when it is due.</summary>
/// <remarks>Allocates nothing after it was made. Times are milliseconds of any clock that only goes forward. Not for two threads at once.</remarks>
internal sealed class FaultLane
{
    /// <summary>Most bytes that <see cref="Take"/> may be given at once.</summary>
    public const int MostAtOnce = 512;

    private const int StoreBytes = 1 << 18;
    private const int StoreStretches = 1 << 13;
    private const int LongestFrame = 256;
    private const double LongestHoldMs = 100;

    // Of a frame's own draws the first says which fault it meets.
    private const int DrawsOfFrame = 1 + FrameSpoiler.Words;

    private readonly DamagePlan _plan;
    private readonly KeyedRandom _random;
    private readonly TimedBytes _store = new(StoreBytes, StoreStretches);
    private readonly byte[] _frame = new byte[LongestFrame];
    private readonly byte[] _held = new byte[LongestFrame];
    private int _frameCount;
    private int _heldCount;
    private long _heldNumber;
    private double _heldSinceMs;
    private double _notBeforeMs = double.NegativeInfinity;
    private int _openBytes;
    private bool _isOpenBroken;
    private long _highestOut;
    private DamageCounts _counts;

    /// <summary>Creates a lane.</summary>
    /// <param name="plan">What is done; its direction is not looked at.</param>
    /// <param name="random">Where the draws come from.</param>
    public FaultLane(DamagePlan plan, KeyedRandom random)
    {
        _plan = plan;
        _random = random;
    }

    /// <summary>What was done so far.</summary>
    public DamageCounts Counts => _counts;

    /// <summary>Whether another <see cref="MostAtOnce"/> bytes may be taken: each of them could be a frame, and each frame come out twice.</summary>
    public bool HasRoom => _store.Free >= 4 * MostAtOnce + 4 * LongestFrame && _store.FreeStretches >= 4 * MostAtOnce;

    /// <summary>When the next bytes are due [ms]; infinite when there are none.</summary>
    public double NextDueMs => Math.Min(_store.NextDueMs, _heldCount > 0 ? _heldSinceMs + LongestHoldMs : double.PositiveInfinity);

    /// <summary>Takes bytes of the sender.</summary>
    /// <param name="bytes">At most <see cref="MostAtOnce"/> of them.</param>
    /// <param name="nowMs">The time.</param>
    public void Take(ReadOnlySpan<byte> bytes, double nowMs)
    {
        foreach (byte b in bytes)
        {
            _frame[_frameCount++] = b;
            if (b == 0 || _frameCount == LongestFrame)
            {
                TakeFrame(nowMs);
                _frameCount = 0;
            }
        }
    }

    /// <summary>Gives bytes that are due.</summary>
    /// <param name="into">Receives them.</param>
    /// <param name="nowMs">The time.</param>
    /// <returns>How many; 0 when none are due.</returns>
    public int Give(Span<byte> into, double nowMs)
    {
        if (_heldCount > 0 && nowMs >= _heldSinceMs + LongestHoldMs)
        {
            // Nothing came to overtake it.
            _counts.Delayed++;
            Release(nowMs);
        }

        return _store.Take(into, nowMs);
    }

    private void TakeFrame(double nowMs)
    {
        if (_frameCount == 1)
        {
            // A 00 alone between frames means nothing and meets no fault.
            Put(_frame.AsSpan(0, 1), _counts.Frames, false, nowMs);
            return;
        }

        _counts.Frames++;
        long draw = _counts.Frames * DrawsOfFrame;
        bool goesNow = Meet(_random.Uniform(draw) * 100, draw + 1, nowMs);
        if (goesNow && _heldCount > 0)
        {
            _counts.Reordered++;
            Release(nowMs);
        }
    }

    // Does to the frame what its draw says; false when nothing of it goes out now, so that it overtakes no other.
    private bool Meet(double draw, long firstDraw, double nowMs)
    {
        Span<byte> frame = _frame.AsSpan(0, _frameCount);
        if (Falls(ref draw, _plan.DropPercent))
        {
            _counts.Dropped++;
            return false;
        }

        if (Falls(ref draw, _plan.CorruptPercent))
        {
            _counts.Corrupted++;
            int length = FrameSpoiler.Spoil(frame, _frameCount, _random, firstDraw);
            Put(frame[..length], _counts.Frames, true, nowMs);
            return false;
        }

        if (Falls(ref draw, _plan.DuplicatePercent))
        {
            _counts.Duplicated++;
            Put(frame, _counts.Frames, false, nowMs);
        }
        else if (Falls(ref draw, _plan.DelayPercent))
        {
            _counts.Delayed++;
            _notBeforeMs = Math.Max(_notBeforeMs, nowMs + _plan.DelayMs);
        }
        else if (Falls(ref draw, _plan.ReorderPercent))
        {
            if (_heldCount == 0)
            {
                frame.CopyTo(_held);
                _heldCount = _frameCount;
                _heldNumber = _counts.Frames;
                _heldSinceMs = nowMs;
                return false;
            }
        }
        else if (Falls(ref draw, _plan.StallPercent))
        {
            _counts.Stalled++;
            int half = _frameCount / 2;
            Put(frame[..half], _counts.Frames, false, nowMs);
            _notBeforeMs = Math.Max(_notBeforeMs, nowMs + _plan.StallMs);
            frame = frame[half..];
        }

        Put(frame, _counts.Frames, false, nowMs);
        return true;
    }

    private static bool Falls(ref double draw, double share)
    {
        if (draw < share)
        {
            draw = double.PositiveInfinity;
            return true;
        }

        draw -= share;
        return false;
    }

    private void Release(double nowMs)
    {
        Put(_held.AsSpan(0, _heldCount), _heldNumber, false, nowMs);
        _heldCount = 0;
    }

    // Watches what comes out for what a receiver will take as one piece: everything between two 00.
    private void Put(ReadOnlySpan<byte> bytes, long number, bool isBroken, double nowMs)
    {
        _store.Put(bytes, Math.Max(nowMs, _notBeforeMs));
        foreach (byte b in bytes)
        {
            if (b != 0)
            {
                _openBytes++;
                _isOpenBroken |= isBroken;
            }
            else if (_openBytes > 0)
            {
                CountPiece(number);
                _openBytes = 0;
                _isOpenBroken = false;
            }
        }
    }

    private void CountPiece(long number)
    {
        if (_isOpenBroken)
        {
            _counts.BrokenPieces++;
        }
        else if (number <= _highestOut)
        {
            _counts.Repeats++;
        }
        else
        {
            _highestOut = number;
        }
    }
}
