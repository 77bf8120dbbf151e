// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Links.Lines;
using SensorSim.Links.Tests.Support;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Lines;

/// <summary>Serial ports, tried on pseudo terminals: bytes, rates, hand-shake, closing, unplugging.</summary>
public sealed class SerialLinkTests
{
    private static readonly LinkOptions Usual = new();

    [Test]
    public void Bytes_OfAllValuesBothWays_ComeUnchanged()
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual);
        using SerialLink board = SerialLink.Open(ptys.Board, Usual);
        byte[] all = [.. Enumerable.Range(0, 256 * 40).Select(i => (byte)(i + (i >> 8)))];

        host.Write(all);
        Assert.That(board.ReadAll(all.Length), Is.EqualTo(all));
        board.Write(all);
        Assert.That(host.ReadAll(all.Length), Is.EqualTo(all));
    }

    [TestCase(300, 30)]
    [TestCase(9600, 960)]
    [TestCase(115_200, 11_520)]
    [TestCase(921_600, 92_160)]
    [TestCase(1_234_567, 123_456)]
    [TestCase(3_000_000, 300_000)]
    public void Baud_InRange_IsTakenAndTold(int baud, long bytesPerSecond)
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual with { BaudRate = baud });
        using SerialLink board = SerialLink.Open(ptys.Board, Usual with { BaudRate = baud });
        host.Write("abc"u8);

        Assert.That(board.ReadAll(3), Is.EqualTo("abc"u8.ToArray()));
        Assert.That(host.BytesPerSecond, Is.EqualTo(bytesPerSecond));
        Assert.That(host.Name, Is.EqualTo($"serial port {ptys.Host} at {baud} baud"));
    }

    [TestCase(299)]
    [TestCase(3_000_001)]
    public void Baud_OutOfRange_IsRefused(int baud)
        => Assert.That(() => SerialLink.Open("/dev/null", Usual with { BaudRate = baud }), Throws.InstanceOf<ArgumentOutOfRangeException>());

    [Test]
    public void Read_OfSilentPort_ComesBackInTime()
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual);
        long begin = Stopwatch.GetTimestamp();

        Assert.That(host.Read(new byte[10], TimeSpan.Zero), Is.Zero);
        Assert.That(host.Read(new byte[10], TimeSpan.FromMilliseconds(300)), Is.Zero);
        Assert.That(Stopwatch.GetElapsedTime(begin).TotalMilliseconds, Is.InRange(295, 2000));
    }

    [Test]
    public void Write_ThenClose_LosesNothing()
    {
        using var ptys = new PtyPair();
        using SerialLink board = SerialLink.Open(ptys.Board, Usual);
        byte[] last = new byte[3000];
        last[^1] = 7;
        using (SerialLink host = SerialLink.Open(ptys.Host, Usual))
        {
            host.Write(last);
        }

        Assert.That(board.ReadAll(last.Length), Is.EqualTo(last));
    }

    [Test]
    public void Unplugged_WhileReading_IsNoticedWithinASecondAndClosesWithinTwo()
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual);
        host.Write("to the board"u8);
        ptys.Unplug();
        long begin = Stopwatch.GetTimestamp();

        LinkLostException lost = host.ReadUntilLost(1);
        Assert.That(lost.Message, Does.StartWith($"The serial port {ptys.Host} at 115200 baud is gone"));
        Assert.That(() => host.Write("more"u8), Throws.InstanceOf<LinkLostException>());
        ExpectCloses(host);
        Assert.That(Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.LessThan(3.5));
    }

    [Test]
    public void Unplugged_WhileWriting_IsNoticedWithinASecondAndClosesWithinTwo()
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual);
        using var begun = new ManualResetEventSlim();
        Task<LinkLostException> writing = Task.Run(() => Assert.Throws<LinkLostException>(() =>
        {
            while (true)
            {
                host.Write(new byte[256]);
                begun.Set();
            }
        })!);

        // Nobody reads the other end: sooner or later the writer waits inside Write.
        Assert.That(begun.Wait(TimeSpan.FromSeconds(5)), Is.True);
        Assert.That(writing.Wait(TimeSpan.FromMilliseconds(300)), Is.False, "the port took everything although nobody reads");
        ptys.Unplug();
        Assert.That(writing.Wait(TimeSpan.FromSeconds(1)), Is.True, "not noticed within a second");
        Assert.That(writing.Result.Message, Does.Contain("is gone"));
        ExpectCloses(host);
    }

    [Test]
    public void Write_ToOneWhoDoesNotRead_GivesUpAfterPatience()
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual with { BaudRate = 3_000_000 });
        long begin = Stopwatch.GetTimestamp();

        LinkLostException lost = Assert.Throws<LinkLostException>(() =>
        {
            while (Stopwatch.GetElapsedTime(begin).TotalSeconds < 20)
            {
                host.Write(new byte[256]);
            }
        })!;
        Assert.That(lost.Message, Does.Contain("takes no more bytes"));
        Assert.That(Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.InRange(3, 10));
        ExpectCloses(host);
    }

    [Test]
    public void Read_AfterUnplugging_StillGivesWhatHadCome()
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual);
        using SerialLink board = SerialLink.Open(ptys.Board, Usual);
        board.Write("last words"u8);

        // The pump needs a moment to fetch them from the system; a second is plenty.
        using var pause = new ManualResetEventSlim();
        pause.Wait(TimeSpan.FromSeconds(1));
        ptys.Unplug();
        Assert.That(host.ReadAll(10, 1), Is.EqualTo("last words"u8.ToArray()));
        host.ReadUntilLost(1);
    }

    [Test]
    public void RtsCts_OnPortWithoutTheLines_IsRefusedWithTheReason()
    {
        using var ptys = new PtyPair();
        Assert.That(
            () => SerialLink.Open(ptys.Host, Usual with { UsesRtsCts = true }),
            Throws.InstanceOf<LinkUnavailableException>().With.Message.EqualTo($"Serial port {ptys.Host} has no RTS and CTS lines: leave the RTS/CTS option out."));

        // And the port is free again.
        using SerialLink again = SerialLink.Open(ptys.Host, Usual);
        Assert.That(again.Read(new byte[1], TimeSpan.Zero), Is.Zero);
    }

    [Test]
    public void Closed_Twice_IsSilentAndUsedAfterwards_SaysClosed()
    {
        using var ptys = new PtyPair();
        SerialLink host = SerialLink.Open(ptys.Host, Usual);
        host.Dispose();
        host.Dispose();

        Assert.That(() => host.Read(new byte[1], TimeSpan.Zero), Throws.InstanceOf<LinkLostException>().With.Message.Contains("was closed"));
        Assert.That(() => host.Write(new byte[1]), Throws.InstanceOf<LinkLostException>().With.Message.Contains("was closed"));
    }

    [Test]
    public void OpenedAndClosed_ManyTimes_WorksEachTime()
    {
        using var ptys = new PtyPair();
        using SerialLink board = SerialLink.Open(ptys.Board, Usual);
        for (byte i = 0; i < 20; i++)
        {
            using SerialLink host = SerialLink.Open(ptys.Host, Usual);
            host.Write([i]);
            Assert.That(board.ReadAll(1), Is.EqualTo(new[] { i }));
        }
    }

    [Test]
    public void ReadAndWrite_OnTheCallingThread_AllocateNothing()
    {
        using var ptys = new PtyPair();
        using SerialLink host = SerialLink.Open(ptys.Host, Usual);
        using SerialLink board = SerialLink.Open(ptys.Board, Usual);
        byte[] bytes = new byte[200];
        long all = GC.GetTotalAllocatedBytes(true);
        Assert.That(Allocations.Least(() =>
        {
            for (int i = 0; i < 100; i++)
            {
                host.Write(bytes);
                board.Read(bytes, TimeSpan.FromSeconds(1));
            }

            // Long enough to look whether the port is still there.
            host.Read(bytes, TimeSpan.FromMilliseconds(450));
        }), Is.Zero);
        TestContext.Out.WriteLine($"on all threads {GC.GetTotalAllocatedBytes(true) - all} bytes for 100 frames or more");
    }

    private static void ExpectCloses(SerialLink link)
    {
        long begin = Stopwatch.GetTimestamp();
        link.Dispose();
        Assert.That(Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.LessThan(2.3), "closing takes longer than two seconds");
    }
}
