// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Acquisition;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios;

/// <summary>What <c>acquisition.csv</c> says of a scenario: each channel's format, clock and the levels of what disturbs it.</summary>
/// <remarks>
/// A level that never changes has one row. A level that changes has a row for each stretch between its changes, and one for each second of a
/// ramp, of settling or of a sine, with the value at the stretch's begin; the stretches begin at the samples that take the value over. More
/// than <see cref="MostRows"/> such rows become one with the value at the start and the extremes as label. A level of 0, and the ratio of
/// no noise, have no row.
/// </remarks>
public static class AcquisitionRows
{
    /// <summary>Most rows of one level of one channel.</summary>
    public const int MostRows = 1000;

    /// <summary>Writes every row.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="format">Format of its stream.</param>
    /// <param name="stream">Receives the text; closed.</param>
    public static void Write(Scenario scenario, StreamFormat format, Stream stream)
    {
        using var writer = new AcquisitionCsvWriter(stream);
        Write(scenario, format, writer);
    }

    /// <summary>Writes every row that is known before the run; what happens during it comes after them.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="format">Format of its stream.</param>
    /// <param name="writer">Receives the rows; left open.</param>
    public static void Write(Scenario scenario, StreamFormat format, AcquisitionCsvWriter writer)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentNullException.ThrowIfNull(format);
        ArgumentNullException.ThrowIfNull(writer);
        writer.WriteFormat(format);
        long endTick = format.Clock.TickAtOrAfter(scenario.DurationS);
        long endNs = format.Clock.Nanoseconds(endTick);
        for (int c = 0; c < format.Channels.Count; c++)
        {
            ChannelFormat channel = format.Channels[c];
            ChannelClock clock = Device.Of(scenario.Values, channel.Name).ClockOf(channel.Name);
            writer.Write(new AcquisitionRow(channel.Name, AcquisitionItems.ClockSegmentPpm, 0, endNs, clock.Ppm, "ppm", ""));
            writer.Write(new AcquisitionRow(channel.Name, AcquisitionItems.ClockOffsetNs, 0, endNs, clock.OffsetNs, "ns", ""));
            long ticksPerSample = format.TicksPerSample(c);
            var stretches = new LevelStretches(Grid(scenario.Values, channel), format.FirstSampleAtOrAfter(c, endTick), scenario.DurationS);
            foreach (Level level in ChannelLevels.Of(scenario.Values, channel.Name))
            {
                IReadOnlyList<LevelStretch> parts = stretches.Of(level, MostRows + 1);
                if (parts.Count > MostRows)
                {
                    (double least, double most) = stretches.Extremes(level);
                    WriteLevel(0, endNs, parts[0].Value, FormattableString.Invariant($"from {least:G6} to {most:G6}"));
                    continue;
                }

                for (int i = 0; i < parts.Count; i++)
                {
                    if (parts[i].Value != level.OffValue)
                    {
                        WriteLevel(Ns(parts[i].FirstSample), i + 1 < parts.Count ? Ns(parts[i + 1].FirstSample) : endNs, parts[i].Value, "");
                    }
                }

                long Ns(long sample) => format.Clock.Nanoseconds(sample * ticksPerSample);

                void WriteLevel(long beginNs, long untilNs, double value, string label) => writer.Write(
                    new AcquisitionRow(channel.Name, AcquisitionItems.LevelPrefix + level.Item, beginNs, untilNs, value, level.Unit, label));
            }
        }
    }

    private static SampleGrid Grid(KeyValues values, ChannelFormat channel) => OpticalSlots.Order(values).Contains(channel.Name)
        ? OpticalSlots.Grid(values, channel.Name)
        : Device.Of(values, channel.Name).Grid(channel.RateHz, 0);
}
