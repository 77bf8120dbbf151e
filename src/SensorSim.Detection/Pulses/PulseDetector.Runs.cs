// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

// Plain samples up to the end of an upstroke go through as a run, with what changes at each of them beside the loop instead of in the state: so no
// sample waits until what the one before left has been stored. The upstroke is only looked at where the slope says that there is one.
public partial struct PulseDetector
{
    /// <summary>Takes plain samples inside of a block of the learning, or before it begins to look, until an upstroke ends.</summary>
    private int Run<TProbe>(ReadOnlySpan<int> codes, ref TProbe probe, out bool found)
        where TProbe : struct, IProbe
    {
        WatchSlope watch = _slope;
        int steepest = _learning.Bound;
        bool isRising = _upstroke.IsRising;
        int late = _levels.Late;
        int limit = _levels.Limit;
        int span = (2 * _windows.WatchArm) + 1;
        int at = (int)_now & Mask;
        int done = 0;
        bool isEnd = false;
        while (done < codes.Length && !isEnd)
        {
            int filling = _input.PlainOf(codes[done]);
            int leaving = _filling[(at - span) & Mask];
            _filling[at & Mask] = filling;
            at++;
            done++;
            probe.See(ProbePoint.PulseInput, filling);
            int slope = watch.Next(filling, leaving);
            probe.See(ProbePoint.PulseSlope, slope);
            if (IsLearned)
            {
                probe.See(ProbePoint.PulseThreshold, late);
            }

            if (slope > steepest && slope <= limit)
            {
                steepest = slope;
            }

            if (isRising || slope > late)
            {
                isEnd = _upstroke.Next(slope, late);
                isRising = !isEnd;
            }
        }

        _slope = watch;
        _learning.Pass(steepest, done);
        _now += done;
        _pace.Next(done);
        _input.Pass(codes[done - 1]);
        found = isEnd && Decide(ref probe);
        return done;
    }
}
