// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>A stretch of samples at once.</content>
public partial struct BandPass
{
    /// <summary>Whether a stretch may go in lanes: nothing is dropped between the sums.</summary>
    internal readonly bool FitsLanes => _shift == 0;

    /// <summary>Puts what is held in the order of time.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal void Align()
    {
        if ((_sums.At & (Word16.Length - 1)) != 0)
        {
            Turn();
        }
    }

    /// <summary>Passes a stretch of codes; what is held stays until <see cref="Hold"/>.</summary>
    /// <param name="latest">The eight codes before it.</param>
    /// <param name="codes">The codes, as many as a vector has lanes or more.</param>
    /// <param name="count">How many of them count.</param>
    /// <param name="values">Gets the band-passed values.</param>
    /// <param name="lanes">Gets what is to be held.</param>
    internal readonly void Run(Vector256<int> latest, ReadOnlySpan<int> codes, int count, ref int values, out BandLanes lanes)
    {
        LaneDelay firstDelay = _first.Delay;
        LaneDelay secondDelay = _second.Delay;
        var armDelay = new LaneDelay(_arm);
        Vector256<int> code = latest;
        Vector256<int> ecg = _first.Latest;
        Vector256<int> first = _second.Latest;
        Vector256<int> second = Vector256.LoadUnsafe(in _held[Lanes.Count]);
        Vector256<int> secondBefore = Vector256.LoadUnsafe(in _held[0]);
        Vector256<int> middle = armDelay.Of(second, secondBefore);
        Vector256<int> codeBefore, ecgBefore, firstBefore, older;
        int at = 0;
        do
        {
            codeBefore = code;
            ecgBefore = ecg;
            firstBefore = first;
            older = secondBefore;
            secondBefore = second;
            Vector256<int> middleBefore = middle;

            // Half a vector is the delay of the filter of the spikes.
            code = HeldLine.Codes(codes, at);
            ecg = Avx2.Permute2x128(codeBefore, code, 0x21);
            first = RunningSum.Of(ecg - firstDelay.Of(ecg, ecgBefore), RunningSum.Last(firstBefore));
            second = RunningSum.Of(first - secondDelay.Of(first, firstBefore), RunningSum.Last(secondBefore));
            middle = armDelay.Of(second, secondBefore);
            (second - middle - (middle - armDelay.Of(middle, middleBefore))).StoreUnsafe(ref values, (nuint)at);
            at += Lanes.Count;
        }
        while (at < count);

        // The last vector need not be full: what is held ends with the last sample.
        var missing = new LaneDelay(at - count);
        lanes.Codes = missing.Of(code, codeBefore);
        lanes.Ecg = missing.Of(ecg, ecgBefore);
        lanes.Firsts = missing.Of(first, firstBefore);
        lanes.Seconds = missing.Of(second, secondBefore);
        lanes.Older = missing.Of(secondBefore, older);
    }

    /// <summary>Holds the latest samples.</summary>
    /// <param name="lanes">What <see cref="Run"/> gave for the last sample that counts.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal void Hold(in BandLanes lanes)
    {
        _first.Latest = lanes.Ecg;
        _second.Latest = lanes.Firsts;
        lanes.Older.StoreUnsafe(ref _held[0]);
        lanes.Seconds.StoreUnsafe(ref _held[Lanes.Count]);
        _sums.At = 0;
        _sums.First = lanes.Firsts.GetElement(Lanes.Count - 1);
        _sums.Second = lanes.Seconds.GetElement(Lanes.Count - 1);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Turn()
    {
        _first.Turn(_sums.At);
        _second.Turn(_sums.At);
        HeldLine.Turn(_held, _sums.At);
        _sums.At = 0;
    }
}
