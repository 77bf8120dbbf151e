// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Delivery;

/// <summary>What happens to the codes of one channel between the converter and whoever reads the stream.</summary>
/// <remarks>Samples come in order, each once; what is dropped becomes a jump of the index.</remarks>
internal sealed class ChannelDelivery
{
    private long _next;

    /// <summary>Passes samples on.</summary>
    /// <param name="codes">Codes; may be changed.</param>
    /// <param name="status">Status words; may be changed.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="block">Receives what arrives.</param>
    public void Deliver(Span<int> codes, Span<ushort> status, long firstIndex, ChannelBlock block)
    {
        block.Append(firstIndex, codes.Length, out Span<int> toCodes, out Span<ushort> toStatus);
        codes.CopyTo(toCodes);
        status.CopyTo(toStatus);
        _next = firstIndex + codes.Length;
    }

    /// <summary>An independent copy with the same state.</summary>
    public ChannelDelivery Copy() => (ChannelDelivery)MemberwiseClone();
}
