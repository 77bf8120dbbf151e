// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Links.Damage;
using SensorSim.Links.Frames;
using SensorSim.Links.Tests.Support;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Damage;

/// <summary>Faults on whole frames: what was done is what a receiver counts.</summary>
public sealed class DamagedLinkTests
{
    private static readonly DamagePlan Mixed = new()
    {
        DropPercent = 5, CorruptPercent = 10, DuplicatePercent = 5, DelayPercent = 5, ReorderPercent = 5, StallPercent = 5, DelayMs = 3, StallMs = 7,
    };

    private readonly FakeClock _clock = new();

    [Test]
    public void NoDamage_AnyCut_PassesAllBytesBothWays()
        => Gen.Byte.Array[0, 2000].Select(Gen.Int[1, 400]).Sample((bytes, cut) =>
        {
            var line = new MemoryLine(_clock);
            using var link = new DamagedLink(line, new DamagePlan(), _clock);
            byte[] whole = [.. bytes, 0];
            line.Send(whole);
            for (int at = 0; at < whole.Length; at += cut)
            {
                link.Write(whole.AsSpan(at, Math.Min(cut, whole.Length - at)));
            }

            Assert.That(line.Written(), Is.EqualTo(whole));
            Assert.That(link.ReadAll(whole.Length), Is.EqualTo(whole));
        });

    [Test]
    public void Dropped_All_LeavesNothing()
    {
        Assert.That(Through(new DamagePlan { DropPercent = 100 }, Frames(50), out DamageCounts counts), Is.Empty);
        Assert.That((counts.Frames, counts.Dropped), Is.EqualTo((50, 50)));
    }

    [Test]
    public void Duplicated_All_ComeTwice()
    {
        byte[][] frames = Frames(50);
        Assert.That(
            Through(new DamagePlan { DuplicatePercent = 100 }, frames, out DamageCounts counts), Is.EqualTo(frames.SelectMany(f => (byte[])[.. f, .. f])));
        Assert.That((counts.Duplicated, counts.Repeats), Is.EqualTo((50, 50)));
    }

    [Test]
    public void Reordered_All_SwapPairs()
    {
        byte[][] frames = Frames(50);
        byte[] swapped = [.. Enumerable.Range(0, 50).SelectMany(i => frames[i ^ 1])];
        Assert.That(Through(new DamagePlan { ReorderPercent = 100 }, frames, out DamageCounts counts), Is.EqualTo(swapped));
        Assert.That((counts.Reordered, counts.Repeats), Is.EqualTo((25, 25)));
    }

    [Test]
    public void Reordered_WithoutSuccessor_GoesOutAfterAWhile()
    {
        var line = new MemoryLine(_clock);
        using var link = new DamagedLink(line, new DamagePlan { ReorderPercent = 100 }, _clock);
        byte[] frame = Frames(1)[0];
        link.Write(frame);
        Assert.That(line.Written(), Is.Empty);
        _clock.Move(101);
        link.Read(new byte[1], TimeSpan.Zero);
        Assert.That(line.Written(), Is.EqualTo(frame));
        Assert.That((link.ToBoard.Reordered, link.ToBoard.Delayed), Is.EqualTo((0, 1)));
    }

    [Test]
    public void Corrupted_All_AreAllOtherBytes()
    {
        for (ulong seed = 1; seed <= 40; seed++)
        {
            foreach (byte[] frame in Frames(25))
            {
                byte[] out1 = Through(new DamagePlan { CorruptPercent = 100, Seed = seed }, [frame], out DamageCounts counts);
                Assert.That(out1, Is.Not.EqualTo(frame).And.Not.Empty);
                Assert.That(counts.Corrupted, Is.EqualTo(1));
            }
        }
    }

    [Test]
    public void Delayed_Frame_ComesWhenDueAndHoldsTheNextOne()
    {
        var line = new MemoryLine(_clock);
        using var link = new DamagedLink(line, new DamagePlan { DelayPercent = 100, DelayMs = 20 }, _clock);
        byte[][] frames = Frames(2);
        link.Write(frames[0]);
        _clock.Move(15);
        link.Write(frames[1]);
        Assert.That(line.Written(), Is.Empty);
        _clock.Move(5);
        link.Write([0]);
        Assert.That(line.Written(), Is.EqualTo(frames[0]));
        _clock.Move(15);
        link.Write([]);
        link.Read(new byte[1], TimeSpan.Zero);
        Assert.That(line.Written(), Is.EqualTo((byte[])[.. frames[1], 0]));
        Assert.That(link.ToBoard.Delayed, Is.EqualTo(2));
    }

    [Test]
    public void Stalled_Line_IsSilentInTheMiddleOfAFrame()
    {
        var line = new MemoryLine(_clock);
        using var link = new DamagedLink(line, new DamagePlan { StallPercent = 100, StallMs = 500 }, _clock);
        byte[] frame = Frames(1)[0];
        line.Send(frame);
        double begin = _clock.NowMs;
        int half = link.Read(new byte[300], TimeSpan.FromMilliseconds(10));
        Assert.That(half, Is.EqualTo(frame.Length / 2));
        Assert.That(link.Read(new byte[300], TimeSpan.FromMilliseconds(490)), Is.Zero);
        Assert.That(link.Read(new byte[300], TimeSpan.FromMilliseconds(100)), Is.EqualTo(frame.Length - half));
        Assert.That(_clock.NowMs - begin, Is.EqualTo(500).Within(2));
        Assert.That(link.FromBoard.Stalled, Is.EqualTo(1));
    }

    [Test]
    public void Direction_NotPlanned_IsUntouched()
    {
        byte[][] frames = Frames(20);
        foreach (DamageDirection way in new[] { DamageDirection.ToBoard, DamageDirection.FromBoard, DamageDirection.None })
        {
            var line = new MemoryLine(_clock);
            using var link = new DamagedLink(line, new DamagePlan { DropPercent = 100, Direction = way }, _clock);
            foreach (byte[] frame in frames)
            {
                link.Write(frame);
                line.Send(frame);
            }

            bool dropsOut = way.HasFlag(DamageDirection.ToBoard);
            bool dropsIn = way.HasFlag(DamageDirection.FromBoard);
            Assert.That(line.Written(), Is.EqualTo(dropsOut ? [] : frames.SelectMany(f => f).ToArray()));
            Assert.That(link.Read(new byte[10], TimeSpan.Zero), Is.EqualTo(dropsIn ? 0 : 10));
            Assert.That((link.ToBoard.Dropped, link.FromBoard.Frames > 0), Is.EqualTo((dropsOut ? 20 : 0, dropsIn)));
        }
    }

    [Test]
    public void SameSeed_DamagesAlike_OtherSeedOtherwise()
    {
        byte[][] frames = Frames(300);
        byte[] first = Through(Mixed, frames, out DamageCounts counts);
        Assert.That(Through(Mixed, frames, out DamageCounts again), Is.EqualTo(first));
        Assert.That(again, Is.EqualTo(counts));
        Assert.That(Through(Mixed with { Seed = 2 }, frames, out _), Is.Not.EqualTo(first));
    }

    [Test]
    public void Shares_OfManyFrames_AreThoseOfThePlan()
    {
        // Four standard errors of a share p of n: 4 √(n p (1 − p)).
        const int Count = 40_000;
        Through(Mixed, Frames(Count), out DamageCounts counts);
        (long Done, double Share)[] all =
        [
            (counts.Dropped, 0.05), (counts.Corrupted, 0.1), (counts.Duplicated, 0.05), (counts.Delayed, 0.05), (counts.Stalled, 0.05),

            // One frame at a time is held to be overtaken. It goes with the next one that comes whole (0.85), so of the time that one is held
            // the share is 0.05 / (0.05 + 0.85), and then a further one goes through.
            (counts.Reordered, 0.05 * 0.85 / 0.9),
        ];
        foreach ((long done, double share) in all)
        {
            Assert.That(done, Is.EqualTo(Count * share).Within(4 * Math.Sqrt(Count * share * (1 - share))));
        }
    }

    [TestCase(true)]
    [TestCase(false)]
    public void Counts_OfAnyPlan_AreThoseOfTheReceiver(bool isToBoard)
        => Gen.ULong.Select(Gen.Double[0, 15].Array[6], Gen.Int[1, 400]).Sample((seed, shares, count) =>
        {
            var plan = new DamagePlan
            {
                Seed = seed, DropPercent = shares[0], CorruptPercent = shares[1], DuplicatePercent = shares[2], DelayPercent = shares[3],
                ReorderPercent = shares[4], StallPercent = shares[5], DelayMs = 3, StallMs = 7,
                Direction = isToBoard ? DamageDirection.ToBoard : DamageDirection.FromBoard,
            };
            byte[][] frames = Frames(count + 2);

            // First and last come whole, so that every number in between is either accepted or missed.
            byte[] bytes = [.. frames[0], .. Through(plan, frames[1..^1], out DamageCounts done), .. frames[^1]];
            var reader = new FrameReader();
            ReadOnlySpan<byte> rest = bytes;
            while (reader.TryRead(ref rest, out Frame frame))
            {
                Assert.That(frame.Payload.SequenceEqual(Payload(frame.Sequence)), Is.True, "a wrong frame was accepted");
            }

            FrameCounts counted = reader.Counts;
            Assert.That(counted.Damaged, Is.EqualTo(done.BrokenPieces), "damaged");
            Assert.That(counted.Repeated, Is.EqualTo(done.Repeats), "repeated");
            Assert.That(counted.Good + counted.Missing, Is.EqualTo(frames.Length), "accepted and missing");
            Assert.That(frames.Length - counted.Good, Is.LessThanOrEqualTo(done.Dropped + (2 * done.Corrupted) + done.Reordered), "one damage costs two frames at most");
        }, iter: 300);

    [Test]
    public void Link_BelowIsPassedOn()
    {
        var line = new MemoryLine(_clock);
        var link = new DamagedLink(line, Mixed, _clock);
        Assert.That((link.Name, link.BytesPerSecond), Is.EqualTo((line.Name, line.BytesPerSecond)));
        link.Dispose();
        Assert.That(line.IsDisposed, Is.True);
    }

    [Test]
    public void ReadAndWrite_Always_AllocateNothing()
    {
        var line = new MemoryLine(_clock);
        using var link = new DamagedLink(line, Mixed, _clock);
        byte[][] frames = Frames(200);
        byte[] bytes = new byte[4096];
        Assert.That(Allocations.Least(() =>
        {
            foreach (byte[] frame in frames)
            {
                link.Write(frame);
                line.TakeWritten(bytes);
                line.Send(frame);
                link.Read(bytes, TimeSpan.FromMilliseconds(5));
            }
        }), Is.Zero);
    }

    // What comes out of frames that go in, with all time passed that delays need.
    private byte[] Through(DamagePlan plan, byte[][] frames, out DamageCounts counts)
    {
        bool isToBoard = plan.Direction.HasFlag(DamageDirection.ToBoard);
        var line = new MemoryLine(_clock);
        using var link = new DamagedLink(line, plan, _clock);
        var got = new List<byte>();
        byte[] buffer = new byte[1000];

        // A lone 00 at the end closes what a spoilt end of a frame left open.
        foreach (byte[] frame in (byte[][])[.. frames, [0]])
        {
            if (isToBoard)
            {
                link.Write(frame);
            }
            else
            {
                line.Send(frame);
            }

            _clock.Move(1);
            Drain();
        }

        for (int i = 0; i < 4; i++)
        {
            _clock.Move(200);
            Drain();
        }

        counts = isToBoard ? link.ToBoard : link.FromBoard;
        bool isEmpty = got.Count == 1;
        return isEmpty ? [] : [.. got.Take(got.Count - (got[^1] == 0 && got.Count > 1 && got[^2] == 0 ? 1 : 0))];

        void Drain()
        {
            int count = link.Read(buffer, TimeSpan.Zero);
            while (!isToBoard && count > 0)
            {
                got.AddRange(buffer.AsSpan(0, count));
                count = link.Read(buffer, TimeSpan.Zero);
            }

            got.AddRange(line.Written());
        }
    }

    private static byte[][] Frames(int count)
    {
        var writer = new FrameWriter();
        byte[] wire = new byte[FrameLimits.WireBuffer];
        return [.. Enumerable.Range(0, count).Select(i => wire[..writer.Write(FrameType.Samples, Payload((uint)i), wire)])];
    }

    // Any lengths and bytes, zeros among them.
    private static byte[] Payload(uint number) =>
        [.. Enumerable.Range(0, (int)(number * 37 % (FrameLimits.MaximumPayload + 1))).Select(i => (byte)(i % 5 == 0 ? 0 : (number * 31) + (i * 7)))];
}
