// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Rows;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>What the rows of <c>acquisition.csv</c> say of the clock and the declared delay of a channel.</summary>
internal static class RecordClocks
{
    /// <summary>The item of a rate that changes.</summary>
    public static string Decimation { get; } = AcquisitionItems.Of(new AcquisitionEvent(default, AcquisitionKind.Setting, 0, 0, 0, SensorSetting.Decimation)).Item;

    private static readonly string[] s_needed =
        [AcquisitionItems.ClockSegmentPpm, AcquisitionItems.ClockOffsetNs, AcquisitionItems.DeclaredDelayNs, Decimation];

    /// <summary>Whether a row says something of a clock, a delay, a rate, or of a stretch that is not usable: what a run needs of them.</summary>
    /// <param name="row">The row.</param>
    public static bool IsNeeded(AcquisitionRow row) => row.IsUnusable || s_needed.Contains(row.Item);

    /// <summary>What lies between body time and the channel's nominal device time; zero where the file says nothing.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="rows">The rows.</param>
    /// <param name="path">Path of the file, for messages.</param>
    /// <exception cref="InputFileException">A value is out of range, missing or ambiguous.</exception>
    public static ChannelDelay DelayOf(ChannelName channel, IReadOnlyCollection<AcquisitionRow> rows, string path)
    {
        double ppm = Value(AcquisitionItems.ClockSegmentPpm);
        return Math.Abs(ppm) <= 100_000
            ? new ChannelDelay(channel, Ns(AcquisitionItems.DeclaredDelayNs), Ns(AcquisitionItems.ClockOffsetNs), ppm)
            : throw Wrong($"{AcquisitionItems.ClockSegmentPpm} of {channel.Text()} must be from -100000 to 100000");

        long Ns(string item)
        {
            double value = Value(item);
            return Math.Abs(value) <= 1e15 ? (long)value : throw Wrong($"{item} of {channel.Text()} must be from -1e15 to 1e15");
        }

        double Value(string item)
        {
            List<double> values = [.. rows.Where(r => r.Channel == channel && r.Item == item).Select(r => r.Value).Distinct()];
            return values.Count switch
            {
                0 => 0,
                1 when double.IsFinite(values[0]) => values[0],
                1 => throw Wrong($"{item} of {channel.Text()} has no value"),
                _ => throw Wrong($"{item} of {channel.Text()} has more than one value; a clock or a delay that changes cannot be scored"),
            };
        }

        InputFileException Wrong(string what) => new(path, 0, 0, what);
    }
}
