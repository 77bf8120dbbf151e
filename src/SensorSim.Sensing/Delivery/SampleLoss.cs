// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;

namespace SensorSim.Sensing.Delivery;

/// <summary>Single samples that are missing.</summary>
/// <param name="samples">Which ones.</param>
internal sealed class SampleLoss(RareSamples samples) : SampleStretches
{
    private RareSamples _samples = samples;
    private long _from;

    /// <inheritdoc/>
    protected override bool TryFind(long limit, out long begin, out long end)
    {
        if (_from >= limit)
        {
            begin = end = 0;
            return false;
        }

        begin = _samples.Next(_from, limit, out _);
        end = begin + 1;
        if (begin < limit)
        {
            _from = end;
            return true;
        }

        _from = limit;
        ClearUntil = _samples.ClearUntil;
        return false;
    }
}
