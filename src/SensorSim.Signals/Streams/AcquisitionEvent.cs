// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;

namespace SensorSim.Signals.Streams;

/// <summary>Something that the acquisition did to a stretch of a channel while it was made; no detector sees it.</summary>
/// <remarks>
/// A stretch that goes on over several reads is told in pieces that touch, each as soon as it has been read; whoever keeps them joins
/// them. Pieces of one channel and kind come in order.
/// </remarks>
/// <param name="Channel">The channel.</param>
/// <param name="Kind">What happened.</param>
/// <param name="BeginNs">Begin, nominal device time [ns].</param>
/// <param name="EndNs">End, not included, nominal device time [ns].</param>
/// <param name="Value">A number that belongs to it, in the unit of the kind; NaN when there is none.</param>
/// <param name="Setting">Which setting changed; of kind <see cref="AcquisitionKind.Setting"/> only.</param>
public readonly record struct AcquisitionEvent(
    ChannelName Channel, AcquisitionKind Kind, long BeginNs, long EndNs, double Value, SensorSetting Setting = default);

/// <summary>What the acquisition may do to a stretch of a channel.</summary>
public enum AcquisitionKind
{
    /// <summary>Unusable: an electrode has no contact, or the channel has not recovered from it.</summary>
    UnusableLeadOff,

    /// <summary>Unusable: amplifier or converter are saturated.</summary>
    UnusableSaturated,

    /// <summary>Unusable: samples were lost.</summary>
    UnusableLost,

    /// <summary>Unusable: the optical sensor does not touch the skin.</summary>
    UnusableNoContact,

    /// <summary>Samples that the sensor never delivered; value: how many.</summary>
    Gap,

    /// <summary>A packet came late; value: by how much [ms].</summary>
    LatePacket,

    /// <summary>A setting of the sensor changed; value: the new value in its own unit.</summary>
    Setting,
}
