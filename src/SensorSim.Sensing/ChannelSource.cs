// SPDX-License-Identifier: MIT
using SensorSim.Body;

namespace SensorSim.Sensing;

/// <summary>Makes the samples of one channel, forward only; one virtual call for each block.</summary>
internal abstract class ChannelSource
{
    /// <summary>Makes samples.</summary>
    /// <param name="scratch">Working space, as long as <paramref name="codes"/>.</param>
    /// <param name="codes">Receives the codes.</param>
    /// <param name="status">Receives the status words; zeroed before.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    public abstract void Fill(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex);

    /// <summary>Shares with an earlier source of the same stream what both would make alike.</summary>
    public virtual void Join(ChannelSource earlier)
    {
    }

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    public abstract ChannelSource Copy(BodyModel body);
}
