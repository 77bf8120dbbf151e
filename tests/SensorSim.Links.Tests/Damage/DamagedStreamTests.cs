// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Links.Budgets;
using SensorSim.Links.Damage;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Links.Lines;
using SensorSim.Links.Tests.Support;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Tests.Damage;

/// <summary>Much of a stream over a pseudo terminal with damage of every hundredth frame: nothing wrong comes through, everything is counted.</summary>
public sealed class DamagedStreamTests
{
    // As much as 921,600 baud carry.
    private static readonly StreamFormat Format = new(Enum.GetValues<ChannelName>().Select(name => new ChannelFormat
    {
        Name = name,
        Device = "chest",
        RateHz = 2560,
        Bits = 20,
        IsSigned = true,
        UnitPerCode = 0.001,
    }));

    private static readonly KeyedRandom Codes = new(1, "test.codes");

    [TestCase(30)]
    [TestCase(600, Category = "Slow")]
    public void Stream_WithDamage_LetsNothingWrongThroughAndCountsAll(int seconds)
    {
        var budget = new LineBudget(Format);
        Assert.That(budget.Samples.UsualBytesPerSecond, Is.InRange(75_000, 92_160), "the stream is to be what 921,600 baud carry");
        using var ptys = new PtyPair();
        var options = new LinkOptions { BaudRate = 921_600 };
        using SerialLink line = SerialLink.Open(ptys.Host, options);
        using SerialLink board = SerialLink.Open(ptys.Board, options);
        var plan = new DamagePlan { DropPercent = 1, CorruptPercent = 1, DuplicatePercent = 1, Seed = 20 };
        using var host = new DamagedLink(line, plan);
        long begin = Stopwatch.GetTimestamp();
        using var end = new CancellationTokenSource();
        Task<Receiver> receiving = Task.Factory.StartNew(() => Receiver.Run(board, end.Token), TaskCreationOptions.LongRunning);

        uint sent = Send(seconds, line, host);
        Assert.That(receiving.Wait(TimeSpan.FromSeconds(60 + seconds)), Is.True, "the last frame did not come");
        Receiver receiver = receiving.Result;
        FrameCounts counted = receiver.Reader.Counts;
        DamageCounts done = host.ToBoard;
        TestContext.Out.WriteLine(
            $"{seconds} s of stream ({budget.Samples.UsualBytesPerSecond} bytes/s) in {Stopwatch.GetElapsedTime(begin).TotalSeconds:F1} s, {sent} frames, {receiver.Samples} samples right; {counted}; {done}");

        Assert.That(receiver.WrongSamples, Is.Zero);
        Assert.That(receiver.RefusedPayloads, Is.Zero);
        Assert.That((done.Frames, done.Dropped > 0, done.Corrupted > 0, done.Duplicated > 0), Is.EqualTo((sent - 2, true, true, true)));
        Assert.That(counted.Damaged, Is.EqualTo(done.BrokenPieces));
        Assert.That(counted.Repeated, Is.EqualTo(done.Repeats));
        Assert.That(counted.Good + counted.Missing, Is.EqualTo(sent));
        Assert.That(sent - counted.Good, Is.InRange(done.Dropped + done.Corrupted, done.Dropped + (2 * done.Corrupted)), "found again within two frames");
        Assert.That(receiver.Samples, Is.EqualTo(receiver.SamplesOfAcceptedFrames));
    }

    // First and last frame go round the damage.
    private static uint Send(int seconds, SerialLink line, DamagedLink host)
    {
        var frames = new FrameWriter();
        var writer = new SamplesWriter(Format);
        var block = new SampleBlock(Format, Format.Clock.TicksPerSecond);
        byte[] payload = new byte[FrameLimits.MaximumPayload];
        byte[] wire = new byte[FrameLimits.WireBuffer];
        line.Write(wire.AsSpan(0, frames.Write(FrameType.Hello, [], wire)));
        for (int second = 0; second < seconds; second++)
        {
            Fill(block, second);
            writer.Begin(block, false);
            while (!writer.IsDone)
            {
                int length = writer.Write(payload);
                host.Write(wire.AsSpan(0, frames.Write(FrameType.Samples, payload.AsSpan(0, length), wire)));
            }
        }

        host.Write([0]);
        line.Write(wire.AsSpan(0, frames.Write(FrameType.Stop, [], wire)));
        return frames.NextSequence;
    }

    private static void Fill(SampleBlock block, int second)
    {
        long perSecond = Format.Clock.TicksPerSecond;
        block.Begin(second * perSecond, (second + 1) * perSecond);
        for (int i = 0; i < Format.Channels.Count; i++)
        {
            int rate = Format.Channels[i].RateHz;
            block.Channels[i].Append((long)second * rate, rate, out Span<int> codes, out Span<ushort> status);
            status.Clear();
            for (int k = 0; k < rate; k++)
            {
                codes[k] = Code(i, ((long)second * rate) + k);
            }
        }
    }

    // Each sample has a code that no other one is likely to have.
    private static int Code(int channel, long index) => (int)Codes.Word((index * 8) + channel) >> 12;

    private sealed class Receiver
    {
        private readonly SamplesReader _samples = new(Format);
        private readonly int[] _codes = new int[255];
        private readonly ushort[] _status = new ushort[255];
        private bool _isOver;

        public FrameReader Reader { get; } = new();

        public long Samples { get; private set; }

        public long SamplesOfAcceptedFrames { get; private set; }

        public long WrongSamples { get; private set; }

        public long RefusedPayloads { get; private set; }

        public static Receiver Run(SerialLink link, CancellationToken end)
        {
            var receiver = new Receiver();
            byte[] bytes = new byte[4096];
            while (!receiver._isOver && !end.IsCancellationRequested)
            {
                ReadOnlySpan<byte> rest = bytes.AsSpan(0, link.Read(bytes, TimeSpan.FromMilliseconds(200)));
                while (receiver.Reader.TryRead(ref rest, out Frame frame))
                {
                    receiver.Take(frame);
                }
            }

            return receiver;
        }

        private void Take(Frame frame)
        {
            _isOver |= frame.Type == FrameType.Stop;
            if (frame.Type != FrameType.Samples)
            {
                return;
            }

            if (!_samples.TryRead(frame.Payload, out SamplesPayload samples, out _))
            {
                RefusedPayloads++;
                return;
            }

            SamplesOfAcceptedFrames += Format.Channels.Count * (Format.FirstSampleAtOrAfter(0, samples.EndTick) - Format.FirstSampleAtOrAfter(0, samples.BeginTick));
            foreach (SamplesSection section in samples)
            {
                section.CopyCodes(_codes);
                section.CopyStatus(_status);
                for (int k = 0; k < section.Count; k++)
                {
                    bool isRight = _codes[k] == Code(section.Channel, section.FirstIndex + k) && _status[k] == 0;
                    Samples += isRight ? 1 : 0;
                    WrongSamples += isRight ? 0 : 1;
                }
            }
        }
    }
}
