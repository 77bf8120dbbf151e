// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Reads the samples of one channel, in order.</summary>
internal interface IChannelReader : IDisposable
{
    /// <summary>Appends every sample before an index.</summary>
    /// <param name="block">Takes them.</param>
    /// <param name="untilIndex">First sample that is not wanted.</param>
    void Read(ChannelBlock block, long untilIndex);
}
