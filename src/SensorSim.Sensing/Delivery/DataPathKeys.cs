// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Delivery;

/// <summary>Knobs of the way of one device's samples to the receiver: the same set for the first and the second device.</summary>
public sealed class DataPathKeys
{
    private const string Own = "Choice of this project.";

    private DataPathKeys(string section)
    {
        PacketMs = new NumberKey
        {
            Name = section + ".packet_ms",
            Unit = "ms",
            Meaning = "Device time that one radio packet carries, all channels of the device together; what is lost by radio is lost in packets.",
            Source = "10 to 500 ms (common practice).",
            Minimum = 5,
            Maximum = 5000,
            Default = 100,
        };
        PacketLossPercent = new NumberKey
        {
            Name = section + ".packet_loss_percent",
            Unit = "%",
            Meaning = "Share of the packets that the radio loses in the long run.",
            Source = "Two-state model of Gilbert, Bell System Technical Journal 39:1253, 1960; below 1 % in a good link, 10 % and more behind a body (common practice).",
            Minimum = 0,
            Maximum = 50,
            Default = 0,
        };
        LossBurstPackets = new NumberKey
        {
            Name = section + ".loss_burst_packets",
            Unit = "packets",
            Meaning = "Mean number of packets that are lost one after the other; the length of such bursts is geometric.",
            Source = "Two-state model of Gilbert, Bell System Technical Journal 39:1253, 1960; the default is a choice of this project.",
            Minimum = 1,
            Maximum = 1000,
            Default = 3,
        };
        PacketDelayMs = new NumberKey
        {
            Name = section + ".packet_delay_ms",
            Unit = "ms",
            Meaning = "Mean time that packets come late by repetitions on the radio, an exponential distribution.",
            Source = "Some connection intervals (common practice); the distribution is a choice of this project.",
            Minimum = 0,
            Maximum = 10_000,
            Default = 0,
        };
        LateMs = new NumberKey
        {
            Name = section + ".late_ms",
            Unit = "ms",
            Meaning = "Packets that come later than this are told as late in acquisition.csv.",
            Source = Own,
            Minimum = 0,
            Maximum = 100_000,
            Default = 100,
        };
        PatienceMs = new NumberKey
        {
            Name = section + ".patience_ms",
            Unit = "ms",
            Meaning = "How long the receiver waits for a packet; one that comes later still is lost.",
            Source = Own,
            Minimum = 1,
            Maximum = 100_000,
            Default = 1000,
        };
        StampWrapS = new NumberKey
        {
            Name = section + ".stamp_wrap_s",
            Unit = "s",
            Meaning = "After how long the packets' time stamp starts again from zero; the receiver takes the packet in which it does for an old one and throws it away. 0: never.",
            Source = "16 bits of milliseconds wrap after 65.536 s, 32 bits of microseconds after 4294.967296 s (arithmetic).",
            Minimum = 0,
            Maximum = 1e7,
            Default = 0,
        };
        FifoSamples = new NumberKey
        {
            Name = section + ".fifo_samples",
            Unit = "samples",
            Meaning = "Samples of a channel that fit into the sensor's buffer while nobody takes them out.",
            Source = "32 to 512 (common practice).",
            IsWhole = true,
            Minimum = 1,
            Maximum = 4096,
            Default = 32,
        };
        FifoKeeps = new ChoiceKey
        {
            Name = section + ".fifo_keeps",
            Meaning = "Which samples a full buffer keeps: the oldest (new ones find no room) or the newest (old ones are overwritten).",
            Source = Own,
            Choices = ["oldest", "newest"],
            Default = "oldest",
        };
        StallsPerMin = new NumberKey
        {
            Name = section + ".stalls_per_min",
            Unit = "1/min",
            Meaning = "How often the device's processor is too busy to empty the buffer, by chance.",
            Source = Own,
            Minimum = 0,
            Maximum = 60,
            Default = 0,
        };
        StallMs = new NumberKey
        {
            Name = section + ".stall_ms",
            Unit = "ms",
            Meaning = "For how long the processor is busy each time; what does not fit into the buffer meanwhile is lost.",
            Source = Own,
            Minimum = 1,
            Maximum = 30_000,
            Default = 500,
        };
        LostSamplesPerMillion = new NumberKey
        {
            Name = section + ".lost_samples_per_million",
            Unit = "1/million",
            Meaning = "Of a million samples of each channel so many single ones are missing.",
            Source = Own,
            Minimum = 0,
            Maximum = 10_000,
            Default = 0,
        };
        RepeatedSamplesPerMillion = new NumberKey
        {
            Name = section + ".repeated_samples_per_million",
            Unit = "1/million",
            Meaning = "Of a million samples of each channel so many are replaced by the one before, as when a register is read twice.",
            Source = Own,
            Minimum = 0,
            Maximum = 10_000,
            Default = 0,
        };
        All =
        [
            PacketMs, PacketLossPercent, LossBurstPackets, PacketDelayMs, LateMs, PatienceMs, StampWrapS, FifoSamples, FifoKeeps, StallsPerMin, StallMs,
            LostSamplesPerMillion, RepeatedSamplesPerMillion,
        ];
    }

    /// <summary>The first device.</summary>
    public static DataPathKeys First { get; } = new("device");

    /// <summary>The second device.</summary>
    public static DataPathKeys Second { get; } = new("second_device");

    /// <summary>Device time in one packet.</summary>
    public NumberKey PacketMs { get; }

    /// <summary>Share of lost packets.</summary>
    public NumberKey PacketLossPercent { get; }

    /// <summary>Mean length of a burst of losses.</summary>
    public NumberKey LossBurstPackets { get; }

    /// <summary>Mean delay of packets.</summary>
    public NumberKey PacketDelayMs { get; }

    /// <summary>Delay above which a packet counts as late.</summary>
    public NumberKey LateMs { get; }

    /// <summary>Delay above which a packet is lost.</summary>
    public NumberKey PatienceMs { get; }

    /// <summary>Length of the time stamp's turn.</summary>
    public NumberKey StampWrapS { get; }

    /// <summary>Size of the buffer.</summary>
    public NumberKey FifoSamples { get; }

    /// <summary>What a full buffer keeps.</summary>
    public ChoiceKey FifoKeeps { get; }

    /// <summary>How often the processor is busy.</summary>
    public NumberKey StallsPerMin { get; }

    /// <summary>For how long the processor is busy.</summary>
    public NumberKey StallMs { get; }

    /// <summary>Single samples that are missing.</summary>
    public NumberKey LostSamplesPerMillion { get; }

    /// <summary>Single samples that repeat the one before.</summary>
    public NumberKey RepeatedSamplesPerMillion { get; }

    /// <summary>Every knob of this device's data path.</summary>
    public IReadOnlyList<KeyDefinition> All { get; }
}
