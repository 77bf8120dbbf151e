// SPDX-License-Identifier: MIT
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Streams;

/// <summary>Reads a stream to its end and looks for samples and truth that cannot be.</summary>
internal static class StreamCheck
{
    /// <summary>Reads everything; returns the lowest code of each channel.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="keep">Takes each row of truth.</param>
    /// <param name="hasDamage">Whether codes may be damaged after the converter has flagged them.</param>
    /// <param name="told">Takes what the acquisition did.</param>
    /// <param name="isWhole">Whether every sample must arrive or be told as missing: not where a setting leaves samples out.</param>
    public static int[] ReadAll(
        SensorStream stream, Action<TruthEvent>? keep = null, bool hasDamage = false, Action<AcquisitionEvent>? told = null, bool isWhole = true)
    {
        StreamFormat format = stream.Format;
        var block = new SampleBlock(format, format.Clock.TicksPerSecond);
        var lowest = new int[format.Channels.Count];
        Array.Fill(lowest, int.MaxValue);
        var counts = new long[lowest.Length];
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + format.Clock.TicksPerSecond));
            for (int c = 0; c < lowest.Length; c++)
            {
                counts[c] += block.Channels[c].Count;
                lowest[c] = Math.Min(lowest[c], Codes(format.Channels[c], block.Channels[c], hasDamage));
            }

            Truth(stream.Truth, keep);
            Lost(stream, counts, told);
        }

        for (int c = 0; c < lowest.Length; c++)
        {
            long all = format.FirstSampleAtOrAfter(c, stream.EndTick);
            Assert.That(counts[c], isWhole ? Is.EqualTo(all) : Is.LessThanOrEqualTo(all), format.Channels[c].Name.Text());
        }

        return lowest;
    }

    // What did not arrive has been told: with it every sample is accounted for.
    private static void Lost(SensorStream stream, long[] counts, Action<AcquisitionEvent>? keep)
    {
        Assert.That(stream.Acquisition.OverflowCount, Is.Zero);
        while (stream.Acquisition.TryTake(out AcquisitionEvent told))
        {
            counts[stream.Format.IndexOf(told.Channel)] += told.Kind == AcquisitionKind.Gap ? (long)told.Value : 0;
            keep?.Invoke(told);
        }
    }

    private static int Codes(ChannelFormat format, ChannelBlock block, bool hasDamage)
    {
        int lowest = int.MaxValue;
        ReadOnlySpan<int> codes = block.Codes;
        ReadOnlySpan<ushort> status = block.Status;
        for (int i = 0; i < codes.Length; i++)
        {
            bool isOver = (status[i] & (ushort)SampleStatus.OverRange) != 0;
            bool isAtEnd = codes[i] == format.MinimumCode || codes[i] == format.MaximumCode;

            // A value that is not a number becomes code 0 with the flag, which clamping alone gives at the ends only.
            if (codes[i] < format.MinimumCode || codes[i] > format.MaximumCode || (isOver && !isAtEnd && !hasDamage))
            {
                Assert.Fail($"{format.Name.Text()}: code {codes[i]}, status {status[i]}");
            }

            lowest = Math.Min(lowest, codes[i]);
        }

        return lowest;
    }

    private static void Truth(EventRing<TruthEvent> rows, Action<TruthEvent>? keep)
    {
        Assert.That(rows.OverflowCount, Is.Zero);
        while (rows.TryTake(out TruthEvent row))
        {
            bool hasValue = row.Kind.Info().ValueUnit.Length > 0;
            if (row.TimeNs < 0 || (hasValue && !double.IsFinite(row.Value)))
            {
                Assert.Fail($"{row}");
            }

            keep?.Invoke(row);
        }
    }
}
