// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <content>Where a processor has lanes: the slopes of a stretch of plain samples at once, then a look at those that pass the threshold.</content>
public partial struct PulseDetector
{
    /// <summary>How many of the next samples may go in lanes; 0 where the next one needs a look of its own.</summary>
    private readonly int CountLanes(int codes)
    {
        int count = codes < PulseLines.Most ? codes : PulseLines.Most;
        return count >= Lanes.Count && _slope.FitsLanes && _input.IsPlain && !_marks.IsActive ? count : 0;
    }

    /// <summary>Takes samples until a pulse is found or none is left.</summary>
    [SkipLocalsInit]
    private int RunLanes<TProbe>(ReadOnlySpan<int> codes, ref TProbe probe, out bool found)
        where TProbe : struct, IProbe
    {
        Unsafe.SkipInit(out PulseLines lines);
        Watch(codes, ref lines);
        int written = (codes.Length + Lanes.Count - 1) & -Lanes.Count;
        int done = 0;
        found = false;
        while (!found && done < codes.Length)
        {
            // Up to the sample that completes a block of the learning; that one by itself, for thresholds may change with it.
            int begin = done;
            int room = _learning.RoomForRun(_windows.LearningBlock);
            bool isEnd;
            if (room > 0)
            {
                if (lines.Threshold != _levels.Late)
                {
                    lines.Seek(_levels.Late, codes.Length);
                }

                done = _upstroke.Take(ref lines, done, room < codes.Length - done ? done + room : codes.Length, out isEnd);
                int bound = _learning.Bound;
                int steepest = bound == int.MaxValue ? bound : AcrossLanes.Highest(Vector256.Max(Vector256.Create(bound), lines.Highest(begin, done, _levels.Limit)));
                _learning.Pass(steepest, done - begin);
                Pass(done - begin);
            }
            else
            {
                int slope = lines.Slopes[done];
                done++;
                Pass(done - begin);
                if (_learning.Next(slope, _windows.LearningBlock, _levels.Limit))
                {
                    Review();
                }

                isEnd = _upstroke.Next(slope, _levels.Late);
            }

            if (isEnd)
            {
                int near = written - done < Lanes.Count ? written : done + Lanes.Count;
                Put(((ReadOnlySpan<int>)lines.Older)[done..near]);
                found = Decide(ref probe);
                if (!found)
                {
                    Put(((ReadOnlySpan<int>)lines.Fillings)[done..near]);
                }
            }
        }

        Put(((ReadOnlySpan<int>)lines.Older)[done..written]);
        int last = (int)_now - 1;
        _slope.Pass(
            done < 2 ? lines.Before : lines.Slopes[done - 2], lines.Slopes[done - 1], _filling[last & Mask], _filling[(last - (2 * _windows.WatchArm) - 1) & Mask]);
        _input.Pass(codes[done - 1]);
        return done;
    }

    // What was held where the stretch lies ahead of a decision: an upstroke that takes too long is looked at up to two samples behind its end.
    private void Put(ReadOnlySpan<int> line)
    {
        for (int i = 0; i < line.Length; i++)
        {
            _filling[((int)_now + i) & Mask] = line[i];
        }
    }

    private void Pass(int count)
    {
        _now += count;
        _pace.Next(count);
    }

    // Holds a stretch and works out its slopes.
    private void Watch(ReadOnlySpan<int> codes, ref PulseLines lines)
    {
        int now = (int)_now;
        ref int fillings = ref lines.Fillings[0];
        ref int older = ref lines.Older[0];
        ref int slopes = ref lines.Slopes[0];
        Vector256<int> sign = Vector256.Create(_input.PlainOf(1) >> 31);
        Vector256<int> late = Vector256.Create(_levels.Late);
        WatchSlope.Window window = default;
        _ = window.Next(HeldAt(now - (2 * Lanes.Count)));
        _ = window.Next(HeldAt(now - Lanes.Count));
        ulong above = 0;
        ulong fallen = 0;
        for (int i = 0; i < codes.Length; i += Lanes.Count)
        {
            Vector256<int> filling = (HeldLine.Codes(codes, i) ^ sign) - sign;
            filling.StoreUnsafe(ref fillings, (nuint)i);
            HeldAt(now + i).StoreUnsafe(ref older, (nuint)i);
            Hold(now + i, filling);
            Vector256<int> slope = window.Next(filling);
            slope.StoreUnsafe(ref slopes, (nuint)i);
            above |= PulseLines.Mask(Vector256.GreaterThan(slope, late), i);
            fallen |= PulseLines.Mask(Vector256.LessThan(slope, Vector256<int>.One), i);
        }

        lines.Before = _slope.Weighted;
        lines.Threshold = _levels.Late;
        lines.Above = above;
        lines.Fallen = fallen;
    }

    // Eight held samples from a place on.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly Vector256<int> HeldAt(int at)
    {
        at &= Mask;
        return at <= Word256.Length - Lanes.Count ? Vector256.LoadUnsafe(in _filling[at]) : HeldAcross(at);
    }

    private readonly Vector256<int> HeldAcross(int at)
    {
        Word8 eight = default;
        for (int i = 0; i < Word8.Length; i++)
        {
            eight[i] = _filling[(at + i) & Mask];
        }

        return Vector256.LoadUnsafe(in eight[0]);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Hold(int at, Vector256<int> fillings)
    {
        at &= Mask;
        if (at <= Word256.Length - Lanes.Count)
        {
            fillings.StoreUnsafe(ref _filling[at]);
        }
        else
        {
            HoldAcross(at, fillings);
        }
    }

    private void HoldAcross(int at, Vector256<int> fillings)
    {
        Word8 eight = default;
        fillings.StoreUnsafe(ref eight[0]);
        for (int i = 0; i < Word8.Length; i++)
        {
            _filling[(at + i) & Mask] = eight[i];
        }
    }
}
