// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Files.Edf;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Files.Tests.Edf;

/// <summary>Memory does not grow with the length of a recording, and blocks cost nothing.</summary>
public class EdfMemoryTests
{
    private const int Seconds = 200;

    [Test]
    public void WriteAndRead_AfterWarmUp_AllocateNothing()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        var block = new SampleBlock(format, 500);
        long second = 0;
        var writer = new EdfRecordingWriter(name => File.Create(folder[name]), format);
        Assert.That(Allocations.Least(() => Write(Seconds)), Is.Zero);
        writer.Complete();
        using var reader = new EdfRecordingReader(folder["recording.bdf"]);
        long samples = 0;
        long half = reader.EndTick / 500 / 8;
        Assert.That(Allocations.Least(() => Read(half)), Is.Zero);
        Assert.That(samples, Is.GreaterThan(half * 350));

        void Write(int seconds)
        {
            for (int i = 0; i < seconds; i++, second++)
            {
                Fill(block, format, second);
                writer.Write(block);
                writer.AddTruth(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, second * 1_000_000_000, 1.25, second, BeatClass.Normal, TruthFlags.None));
                writer.AddMark(new Mark { Kind = MarkKind.HeartRateBpm, Sample = second * 250, HasValue = true, ValueMilli = 60_000 });
                writer.AddAcquisition(new AcquisitionEvent(ChannelName.Ecg, AcquisitionKind.UnusableLeadOff, second * 1_000_000_000, (second * 1_000_000_000) + 1000, double.NaN));
            }
        }

        void Read(long seconds)
        {
            for (int i = 0; i < seconds; i++)
            {
                reader.Read(block, reader.PositionTick + 500);
                samples += block.Channels[0].Count + block.Channels[2].Count + block.Channels[3].Count;
            }
        }
    }

    // What each row takes, a day of rows takes millions of times: the runtime lets garbage grow to the size of the processor's cache (tens to hundreds of megabytes)
    // before it looks after it, whatever is in use.
    [Test]
    public void ReadTruth_AfterWarmUp_AllocatesNothing()
    {
        using var folder = new TestFolder();
        StreamFormat format = EdfStreams.Wrist();
        var block = new SampleBlock(format, 500);
        using (var writer = new EdfRecordingWriter(name => File.Create(folder[name]), format))
        {
            for (int second = 0; second < Seconds; second++)
            {
                Fill(block, format, second);
                writer.Write(block);
                for (int i = 0; i < 10; i++)
                {
                    writer.AddTruth(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, (second * 1_000_000_000L) + i, 1.0 / (i + 3), second, (BeatClass)i, (TruthFlags)(i & 7)));
                }
            }

            writer.Complete();
        }

        using var truth = new EdfTruthReader(folder["recording.bdf"]);
        long rows = 0;
        long right = 0;
        Assert.That(Allocations.Least(() => Read(Seconds * 2)), Is.Zero);
        Assert.That(right, Is.EqualTo(rows));
        while (truth.TryRead(out _))
        {
            rows++;
        }

        Assert.That(rows, Is.EqualTo(Seconds * 10));

        void Read(int count)
        {
            for (int i = 0; i < count && truth.TryRead(out TruthEvent row); i++, rows++)
            {
                var there = new TruthEvent(
                    ChannelName.Ecg, MarkKind.RPeak, (rows / 10 * 1_000_000_000) + (rows % 10), 1.0 / ((rows % 10) + 3), rows / 10, (BeatClass)(rows % 10), (TruthFlags)(rows % 10 & 7));
                right += row == there ? 1 : 0;
            }
        }
    }

    // 24 hours of five signals, as annotated as a run is: less than 150 MB for the whole process, test runner included. What the tests before it have left is given
    // back first; the system's own mark of the peak would still hold it, so the memory is looked at on the way, twice an hour of signal.
    [Test]
    [Category("Slow")]
    public void WriteAndRead_TwentyFourHours_StayBelow150Megabytes()
    {
        using var folder = new TestFolder();
        StreamFormat format = new(EdfStreams.Wrist().Channels.Take(5));
        var block = new SampleBlock(format, 500);
        const int Day = 86_400;
        long peak = 0;
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        using (var writer = new EdfRecordingWriter(name => File.Create(folder[name]), format))
        {
            for (int second = 0; second < Day; second++)
            {
                Look(second);
                Fill(block, format, second);
                writer.Write(block);
                for (int i = 0; i < 15; i++)
                {
                    writer.AddTruth(new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, (second * 1_000_000_000L) + (i * 50_000_000L), 1.25, second, BeatClass.Normal, TruthFlags.None));
                }
            }

            writer.Complete();
            Assert.That(writer.AnnotationsLost, Is.Zero);
        }

        long length = new FileInfo(folder["recording.bdf"]).Length;
        Assert.That(length, Is.GreaterThan(300_000_000), "it is a day");
        using var reader = new EdfRecordingReader(folder["recording.bdf"]);
        var expected = new SampleBlock(format, 500);
        for (int second = 0; second < Day; second++)
        {
            Look(second);
            reader.Read(block, reader.PositionTick + 500);
            Fill(expected, format, second);
            for (int c = 0; c < 5; c++)
            {
                if (!block.Channels[c].Codes.SequenceEqual(expected.Channels[c].Codes) || !block.Channels[c].Status.SequenceEqual(expected.Channels[c].Status))
                {
                    Assert.Fail($"second {second}, channel {c}");
                }
            }
        }

        using (var truth = new EdfTruthReader(folder["recording.bdf"]))
        {
            // Once for all rows of a second: what a look takes itself is garbage, too.
            long rows = 0;
            for (; truth.TryRead(out _); rows++)
            {
                if (rows % 15 == 0)
                {
                    Look(rows / 15);
                }
            }

            Assert.That(rows, Is.EqualTo(Day * 15));
        }

        TestContext.Out.WriteLine(FormattableString.Invariant($"{length / 1e6:0} MB of file, at most {peak / 1e6:0} MB of memory in the whole test process"));
        Assert.That(peak, Is.GreaterThan(1_000_000).And.LessThan(150_000_000));

        void Look(long second)
        {
            if (second % 1800 == 0)
            {
                using var process = Process.GetCurrentProcess();
                peak = Math.Max(peak, process.WorkingSet64);
            }
        }
    }

    // A gap of ten samples every fourth second and a status word that changes now and then.
    private static void Fill(SampleBlock block, StreamFormat format, long second)
    {
        block.Begin(second * 500, (second + 1) * 500);
        for (int c = 0; c < format.Channels.Count; c++)
        {
            ChannelFormat channel = format.Channels[c];
            int rate = channel.RateHz;
            int skip = second % 4 == 3 ? 10 : 0;
            block.Channels[c].Append((second * rate) + skip, rate - skip, out Span<int> codes, out Span<ushort> status);
            for (int i = 0; i < codes.Length; i++)
            {
                codes[i] = channel.MinimumCode + (int)(((second * 7919) + (i * 31)) & ((1 << channel.Bits) - 1));
                status[i] = (ushort)(i < 20 ? second & 3 : 0);
            }
        }
    }
}
