// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>Holds that blocks come in order and without a stretch left out.</summary>
internal struct BlockOrder
{
    /// <summary>First tick after the last block.</summary>
    public long EndTick { get; private set; }

    /// <summary>Takes note of the next block.</summary>
    /// <param name="block">The block.</param>
    /// <exception cref="ArgumentException">It does not begin where the one before ended.</exception>
    public void Take(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        if (block.BeginTick != EndTick)
        {
            throw new ArgumentException($"The block begins at tick {block.BeginTick}; the one before ended at {EndTick}.", nameof(block));
        }

        EndTick = block.EndTick;
    }
}
