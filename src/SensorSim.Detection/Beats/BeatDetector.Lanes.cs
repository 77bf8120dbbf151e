// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>Where a processor has lanes: a stretch of samples goes through one stage after the other, and the last ones look only at what could be a beat.</content>
public partial struct BeatDetector
{
    /// <summary>How many of the next samples may go in lanes; 0 where the next one needs a look of its own.</summary>
    private readonly int CountLanes(int codes, ReadOnlySpan<ushort> status)
    {
        int count = codes < BeatLines.Most ? codes : BeatLines.Most;
        bool isPlain = _windows.Decimation == 1 && !_isFresh && _skip == 0 && !_gaps.IsOpen && _spikes.IsIdle && _bandPass.FitsLanes;
        return count >= Lanes.Count && isPlain && (status.Length == 0 || !HasFlag(status[..count])) ? count : 0;
    }

    private static bool HasFlag(ReadOnlySpan<ushort> status)
    {
        // Eight at a time, the last eight once more.
        ref ushort first = ref MemoryMarshal.GetReference(status);
        Vector128<ushort> any = Vector128.LoadUnsafe(ref first, (nuint)(status.Length - Vector128<ushort>.Count));
        for (int i = 0; i < status.Length - Vector128<ushort>.Count; i += Vector128<ushort>.Count)
        {
            any |= Vector128.LoadUnsafe(ref first, (nuint)i);
        }

        return (any & Vector128.Create(SampleFlags.PacingSpike)) != Vector128<ushort>.Zero;
    }

    /// <summary>Takes samples until a beat is found or none is left.</summary>
    [SkipLocalsInit]
    private int RunLanes(ReadOnlySpan<int> codes, out bool found)
    {
        _spikes.Align();
        _bandPass.Align();
        _energy.Align();
        Unsafe.SkipInit(out BeatLines lines);
        _bandPass.Run(_spikes.Latest, codes, codes.Length, ref lines.Values[0], out BandLanes band);
        _energy.Run(ref lines, codes.Length);
        int done = 0;
        do
        {
            // Up to the end of a block of the learning, a complete hump, or a sample with which the judge does something by itself.
            int most = codes.Length - done;
            int inBlock = _learning.RoomForRun(_windows.LearningBlock) + 1;
            most = inBlock < most ? inBlock : most;
            long quiet = _judge.QuietUntil(_windows) - _now;
            most = quiet >= most ? most : quiet < 0 ? 1 : (int)quiet + 1;
            ref int values = ref lines.Values[done];
            int taken = _peaks.Take(ref values, most, out bool isHump);
            bool isBlock = _learning.Watch(ref values, taken, _windows.LearningBlock);
            Append(codes, done, taken);
            done += taken;
            _next += taken;
            _now += taken;
            _sinceBeat += taken;
            if (isBlock)
            {
                Learn();
            }

            if (isHump)
            {
                Decide();
            }

            found = _judge.Pass(_windows, ref _levels, _now - 1) && Tell();
        }
        while (!found && done < codes.Length);

        _energy.Hold(ref lines, done, lines.Values[done - 1]);
        if (done < codes.Length)
        {
            // What comes after the beat comes again.
            _bandPass.Run(_spikes.Latest, codes, done, ref lines.Values[0], out band);
        }

        _spikes.Latest = band.Codes;
        _bandPass.Hold(band);
        _gaps.Last = codes[done - 1];
        return done;
    }

    /// <summary>Holds samples of a stretch as they leave the filter of the spikes.</summary>
    private void Append(ReadOnlySpan<int> codes, int done, int taken)
    {
        int at = (int)_now & (Word256.Length - 1);
        for (; done < BeatLines.Delay && taken > 0; done++, taken--, at++)
        {
            _ecg[at & (Word256.Length - 1)] = _spikes.Waiting[done];
        }

        if (taken > 0)
        {
            HeldLine.Append(_ecg, at, codes.Slice(done - BeatLines.Delay, taken));
        }
    }
}
