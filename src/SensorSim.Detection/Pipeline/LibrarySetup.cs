// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Pipeline;

/// <summary>What the library must know of one channel before it starts. A rate of 0: there is no such channel.</summary>
public struct ChannelSetup
{
    /// <summary>Nominal sampling rate [Hz].</summary>
    public int RateHz;

    /// <summary>Ticks of the common clock from one sample to the next.</summary>
    public int TicksPerSample;

    /// <summary>+1 when a rising physical value raises the code, −1 when it lowers it.</summary>
    public int Polarity;

    /// <summary>The code that stands for physical zero.</summary>
    public int ZeroCode;

    /// <summary>Codes in one unit of the channel (mV of ECG, g of acceleration) times 256; 0: not known.</summary>
    public int CodesPerUnit256;

    /// <summary>Delay of the chain as declared: a body event at time t shows at t + delay [1/256 tick].</summary>
    public long Delay256;

    /// <summary>Whether the stream has the channel.</summary>
    public readonly bool IsThere => RateHz > 0;
}

/// <summary>What the library must know of a stream before it starts.</summary>
public struct LibrarySetup
{
    /// <summary>The clock that the channels share.</summary>
    public CommonClock Clock;

    /// <summary>The channels, by <see cref="ChannelRole"/>.</summary>
    public ChannelSetups Channels;

    /// <summary>The light that pulses are read from: infrared, without it red, without that green.</summary>
    public readonly ChannelRole Light => this[ChannelRole.Infrared].IsThere ? ChannelRole.Infrared
        : this[ChannelRole.Red].IsThere ? ChannelRole.Red
        : this[ChannelRole.Green].IsThere ? ChannelRole.Green : ChannelRole.None;

    /// <summary>The setup of a channel.</summary>
    /// <param name="role">A role other than none.</param>
    public readonly ChannelSetup this[ChannelRole role] => Channels[(int)role];

    /// <summary>Eight channels, held in place as in a C struct.</summary>
    [InlineArray(Length)]
    public struct ChannelSetups
    {
        /// <summary>Channels held.</summary>
        public const int Length = 8;
        private ChannelSetup _first;
    }
}
