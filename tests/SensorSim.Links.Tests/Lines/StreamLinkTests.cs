// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Links.Lines;
using SensorSim.Links.Tests.Support;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Lines;

/// <summary>Links over the standard input and output of a process.</summary>
public sealed class StreamLinkTests
{
    [Test]
    public void Bytes_ThroughAProcess_ComeUnchanged()
    {
        using Process cat = Start("cat");
        using StreamLink link = Link(cat);
        byte[] all = [.. Enumerable.Range(0, 256 * 40).Select(i => (byte)(i + (i >> 8)))];
        link.Write(all);
        Assert.That(link.ReadAll(all.Length), Is.EqualTo(all));
    }

    [Test]
    public void Read_OfSilentProcess_ComesBackInTime()
    {
        using Process cat = Start("cat");
        using StreamLink link = Link(cat);
        long begin = Stopwatch.GetTimestamp();
        Assert.That(link.Read(new byte[10], TimeSpan.Zero), Is.Zero);
        Assert.That(link.Read(new byte[10], TimeSpan.FromMilliseconds(300)), Is.Zero);
        Assert.That(Stopwatch.GetElapsedTime(begin).TotalMilliseconds, Is.InRange(295, 2000));
    }

    [Test]
    public void Process_ThatEnds_IsLostAfterItsLastBytes()
    {
        using Process echo = Start("echo", "-n", "bye");
        using StreamLink link = Link(echo);
        Assert.That(link.ReadAll(3), Is.EqualTo("bye"u8.ToArray()));
        Assert.That(link.ReadUntilLost(1).Message, Is.EqualTo("The process echo is gone: the other end was unplugged or has ended; connect it again."));
    }

    [Test]
    public void Process_ThatDoesNotRead_IsGivenUpAndClosedInTime()
    {
        using Process sleeper = Start("sleep", "60");
        StreamLink link = Link(sleeper);
        try
        {
            long begin = Stopwatch.GetTimestamp();
            LinkLostException lost = Assert.Throws<LinkLostException>(() =>
            {
                for (int i = 0; i < 10_000; i++)
                {
                    link.Write(new byte[4096]);
                }
            })!;
            Assert.That(lost.Message, Does.Contain("takes no more bytes"));
            Assert.That(Stopwatch.GetElapsedTime(begin), Is.GreaterThan(StreamLink.WriteLimit));
            begin = Stopwatch.GetTimestamp();
            link.Dispose();
            Assert.That(Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.LessThan(2.3));
        }
        finally
        {
            sleeper.Kill();
        }
    }

    [Test]
    public void ReadAndWrite_Always_AllocateNothing()
    {
        using Process cat = Start("cat");
        using StreamLink link = Link(cat);
        byte[] bytes = new byte[100];
        Assert.That(Allocations.Least(() =>
        {
            for (int i = 0; i < 50; i++)
            {
                link.Write(bytes);
                link.Read(bytes, TimeSpan.FromSeconds(1));
                link.Read(bytes, TimeSpan.FromMilliseconds(1));
            }
        }), Is.Zero);
    }

    [Test]
    public void Reader_ThatIsSlow_LosesNothing()
    {
        // More than the ring holds: the pump waits for the reader, and the process for the pump.
        using Process head = Start("head", "-c", "3000000", "/dev/zero");
        using StreamLink link = Link(head);
        using var pause = new ManualResetEventSlim();
        pause.Wait(TimeSpan.FromMilliseconds(300));
        Assert.That(link.ReadAll(3_000_000).AsSpan().ContainsAnyExcept((byte)0), Is.False);
        link.ReadUntilLost(1);
    }

    private static StreamLink Link(Process process) =>
        new(process.StandardOutput.BaseStream, process.StandardInput.BaseStream, "process " + process.StartInfo.FileName);

    private static Process Start(string program, params string[] arguments) =>
        Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true })!;
}
