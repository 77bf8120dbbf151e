// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>Where the samples of a channel lie on the common clock, from slice to slice, without a division.</summary>
internal struct GridCursor(int ticksPerSample)
{
    private readonly int _step = ticksPerSample;
    private long _tick;

    /// <summary>Index of the first sample at or after the last tick advanced to; 0 where there is no such channel.</summary>
    public long Index { get; private set; }

    /// <summary>The samples from there up to another tick, at most a tenth of a second later.</summary>
    /// <param name="piece">Samples.</param>
    /// <param name="untilTick">The tick.</param>
    public ChannelPiece Advance(ChannelPiece piece, long untilTick)
    {
        long from = Index;
        long until = from;
        long tick = _tick;
        for (int step = _step; step > 0 && tick < untilTick; tick += step)
        {
            until++;
        }

        _tick = tick;
        Index = until;
        return piece.Between(from, until);
    }
}
