// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.Candidates;

/// <summary>Stretches of one length that begin at rare times.</summary>
/// <param name="times">When they begin, nominal device time.</param>
/// <param name="lengthSeconds">Their length [s].</param>
/// <param name="rateHz">Sampling rate of the channel [Hz].</param>
internal sealed class TimedStretches(RareTimes times, double lengthSeconds, int rateHz) : SampleStretches
{
    private RareTimes _times = times;
    private long _second;

    /// <inheritdoc/>
    protected override bool TryFind(long limit, out long begin, out long end)
    {
        // What lies beyond the limit is found at the same look: nothing is asked again before it begins.
        while (_second * rateHz < limit)
        {
            long second = _times.NextKnown(_second, out bool isFound);
            _second = isFound ? second + 1 : second;
            if (isFound)
            {
                double seconds = _times.Seconds(second);
                begin = (long)Math.Ceiling(seconds * rateHz);
                end = (long)Math.Ceiling((seconds + lengthSeconds) * rateHz);
                if (end > begin)
                {
                    return true;
                }
            }
        }

        ClearUntil = _second * rateHz;
        begin = end = 0;
        return false;
    }
}
