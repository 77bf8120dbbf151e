// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Sweeps;

[TestFixture]
public sealed class RowBytesTests
{
    private static readonly Gen<Int128> s_wide = Gen.Select(Gen.ULong, Gen.ULong, (high, low) => new Int128(high, low));
    private static readonly Gen<long> s_count = Gen.Long[0, long.MaxValue];
    private static readonly Gen<long?> s_optional = Gen.Select(Gen.Bool, Gen.Long, (has, value) => has ? value : (long?)null);
    private static readonly Gen<ChannelName> s_channel = Gen.Int[0, ChannelNames.All.Count - 1].Select(i => (ChannelName)i);
    private static readonly Gen<MarkKind> s_kind = Gen.Int[0, MarkKinds.All.Count - 1].Select(i => MarkKinds.All[i].Kind);

    private static readonly Gen<EventRow> s_events =
        from channel in s_channel
        from kind in s_kind
        from counts in Gen.Select(s_count, s_count, s_count, (a, b, c) => new DetectionCounts(a, b, c))
        from more in s_count.Array[3]
        from sums in s_wide.Array[2]
        from p95 in s_optional
        select new EventRow
        {
            Channel = channel, Kind = kind, Counts = counts, TimedCount = more[0], TimingSumNs = sums[0], TimingSquaresNs = sums[1], TimingP95Ns = p95,
            UnusableTruth = more[1], UnusableDetections = more[2],
        };

    private static readonly Gen<ReadingRow> s_readings =
        from channel in s_channel
        from kind in s_kind
        from counts in s_count.Array[6]
        from sums in s_wide.Array[3]
        from first in s_optional
        select new ReadingRow
        {
            Channel = channel, Kind = kind, Count = counts[0], SumMicro = sums[0], SquaresMicro = sums[1], OffCount = counts[1], NothingThereCount = counts[2],
            InUnusableCount = counts[3], FirstReadingNs = first, UsableNs = counts[4], AvailableNs = counts[5], LatencySumNs = sums[2],
        };

    private static readonly Gen<RunRow> s_rows =
        from numbers in s_count.Array[4]
        from verdict in Gen.Enum<Verdict>()
        from reason in Gen.String
        from events in s_events.Array[0, 4]
        from readings in s_readings.Array[0, 4]
        select new RunRow
        {
            Run = numbers[0], Verdict = verdict, VerdictReason = reason, SampleCount = numbers[1], MarkCount = numbers[2], ScoredNs = numbers[3],
            Events = events, Readings = readings,
        };

    [Test]
    public void Read_OfAnyRow_IsThatRow() => s_rows.Sample(row =>
    {
        RunRow back = RowBytes.Read(RowBytes.Of(row));
        return Same(back, row);
    });

    [Test]
    public void Read_CutShort_IsRefused()
    {
        byte[] bytes = RowBytes.Of(s_rows.Where(r => r.Events.Count > 0 && r.Readings.Count > 0).Single());
        for (int length = 0; length < bytes.Length; length++)
        {
            Assert.That(() => RowBytes.Read(bytes.AsSpan(0, length)), Throws.InstanceOf<FormatException>(), $"{length} of {bytes.Length} bytes");
        }

        Assert.That(() => RowBytes.Read([.. bytes, 0]), Throws.InstanceOf<FormatException>());
    }

    [Test]
    public void Read_OfAnotherVersion_IsRefused()
    {
        byte[] bytes = RowBytes.Of(s_rows.Single());
        bytes[0]++;
        Assert.That(() => RowBytes.Read(bytes), Throws.InstanceOf<FormatException>().With.Message.Contains("version 2"));
    }

    /// <summary>Every field, lists by their content.</summary>
    internal static bool Same(RunRow a, RunRow b) =>
        a with { Events = b.Events, Readings = b.Readings } == b && a.Events.SequenceEqual(b.Events) && a.Readings.SequenceEqual(b.Readings);
}
