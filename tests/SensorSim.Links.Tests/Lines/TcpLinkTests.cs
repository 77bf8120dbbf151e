// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using SensorSim.Links.Lines;
using SensorSim.Links.Tests.Support;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Lines;

/// <summary>TCP links on loopback.</summary>
public sealed class TcpLinkTests
{
    private static readonly LinkOptions Usual = new();

    [Test]
    public void Bytes_OfAllValuesBothWays_ComeUnchanged()
    {
        (ILink host, ILink board) = Pair();
        using (host)
        using (board)
        {
            byte[] all = [.. Enumerable.Range(0, 256 * 40).Select(i => (byte)(i + (i >> 8)))];
            host.Write(all);
            Assert.That(board.ReadAll(all.Length), Is.EqualTo(all));
            board.Write(all);
            Assert.That(host.ReadAll(all.Length), Is.EqualTo(all));
            Assert.That(host.BytesPerSecond, Is.Null);
        }
    }

    [Test]
    public void Read_OfSilentLink_ComesBackInTime()
    {
        (ILink host, ILink board) = Pair();
        using (host)
        using (board)
        {
            long begin = Stopwatch.GetTimestamp();
            Assert.That(host.Read(new byte[10], TimeSpan.Zero), Is.Zero);
            Assert.That(host.Read(new byte[10], TimeSpan.FromMilliseconds(300)), Is.Zero);
            Assert.That(Stopwatch.GetElapsedTime(begin).TotalMilliseconds, Is.InRange(295, 2000));
        }
    }

    [Test]
    public void OtherEnd_Closed_IsLostAfterItsLastBytes()
    {
        (ILink host, ILink board) = Pair();
        using (host)
        {
            board.Write("bye"u8);
            board.Dispose();
            Assert.That(host.ReadAll(3), Is.EqualTo("bye"u8.ToArray()));
            Assert.That(host.ReadUntilLost(1).Message, Does.Contain("the other end has closed the connection"));
            Assert.That(() => host.Write("x"u8), Throws.InstanceOf<LinkLostException>());
        }
    }

    [Test]
    public void OtherEnd_ThatDoesNotRead_IsGivenUp()
    {
        (ILink host, ILink board) = Pair();
        using (host)
        using (board)
        {
            byte[] much = new byte[1 << 20];
            LinkLostException lost = Assert.Throws<LinkLostException>(() =>
            {
                for (int i = 0; i < 100; i++)
                {
                    host.Write(much);
                }
            })!;
            Assert.That(lost.Message, Does.Contain("takes no more bytes"));
        }
    }

    [Test]
    public void NobodyListening_IsSaid()
    {
        int port = FreePort();
        Assert.That(
            () => LinkAddress.Parse($"tcp:127.0.0.1:{port}").Open(Usual),
            Throws.InstanceOf<LinkUnavailableException>().With.Message.EqualTo(
                $"Nobody listens at the TCP port {port} of 127.0.0.1: start the board's program first, or check the port."));
    }

    [Test]
    public void NoSuchHost_IsSaid()
        => Assert.That(
            () => LinkAddress.Parse("tcp:no-such-host.invalid:7000").Open(Usual),
            Throws.InstanceOf<LinkUnavailableException>().With.Message.EqualTo(
                "There is no host \"no-such-host.invalid\": check the name, or give its number."));

    [Test]
    public void ReadAndWrite_Always_AllocateNothing()
    {
        (ILink host, ILink board) = Pair();
        using (host)
        using (board)
        {
            byte[] bytes = new byte[100];
            Assert.That(Allocations.Least(() =>
            {
                for (int i = 0; i < 50; i++)
                {
                    host.Write(bytes);
                    board.Read(bytes, TimeSpan.FromSeconds(1));
                    board.Read(bytes, TimeSpan.Zero);
                }
            }), Is.Zero);
        }
    }

    private static (ILink Host, ILink Board) Pair()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        ILink host = LinkAddress.Parse($"tcp:127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}").Open(Usual);
        return (host, TcpLink.FromSocket(listener.AcceptSocket(), "board"));
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
