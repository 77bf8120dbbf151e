// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;

namespace SensorSim.Links.Lines;

/// <summary>A link over a TCP connection. Small writes are not held back; a peer that takes nothing for three seconds counts as gone.</summary>
public sealed class TcpLink : ILink
{
    private static readonly TimeSpan WriteLimit = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan LongestPoll = TimeSpan.FromMilliseconds(200);

    private readonly Socket _socket;
    private volatile bool _isDead;
    private int _isClosed;

    private TcpLink(Socket socket, string name)
    {
        _socket = socket;
        Name = name;
        socket.NoDelay = true;
        socket.SendTimeout = (int)WriteLimit.TotalMilliseconds;
        socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, true);
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public long? BytesPerSecond => null;

    /// <summary>Connects to a program that listens.</summary>
    /// <param name="host">Name or number of the host.</param>
    /// <param name="port">TCP port, 1 to 65535.</param>
    /// <param name="timeout">How long it may take.</param>
    /// <exception cref="LinkUnavailableException">There is no such host, nobody listens, or it takes too long.</exception>
    public static TcpLink Connect(string host, int port, TimeSpan timeout)
    {
        ArgumentException.ThrowIfNullOrEmpty(host);
        string where = string.Create(CultureInfo.InvariantCulture, $"TCP port {port} of {host}");
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
        try
        {
            using var limit = new CancellationTokenSource(timeout);
            socket.ConnectAsync(host, port, limit.Token).AsTask().GetAwaiter().GetResult();
            return new TcpLink(socket, where);
        }
        catch (SocketException e)
        {
            socket.Dispose();
            throw new LinkUnavailableException(Sentence(e.SocketErrorCode, host, where), e);
        }
        catch (OperationCanceledException e)
        {
            socket.Dispose();
            throw new LinkUnavailableException(string.Create(
                CultureInfo.InvariantCulture, $"The {where} did not answer within {timeout.TotalSeconds:0.###} s: is the host on, and does its firewall let the port through?"), e);
        }
    }

    /// <summary>Takes a connection that a listener has accepted; the link owns the socket from here on.</summary>
    /// <param name="socket">A connected stream socket.</param>
    /// <param name="name">What it is, for people.</param>
    public static TcpLink FromSocket(Socket socket, string name)
    {
        ArgumentNullException.ThrowIfNull(socket);
        ArgumentException.ThrowIfNullOrEmpty(name);
        return new TcpLink(socket, name);
    }

    /// <inheritdoc/>
    public int Read(Span<byte> buffer, TimeSpan atMost)
    {
        if (_isDead)
        {
            throw Lost(null);
        }

        try
        {
            long begin = Stopwatch.GetTimestamp();
            while (true)
            {
                // A socket that is closed under a poll wakes it on some systems only: short polls notice it everywhere.
                TimeSpan left = atMost - Stopwatch.GetElapsedTime(begin);
                TimeSpan poll = left <= TimeSpan.Zero ? TimeSpan.Zero : left < LongestPoll ? left : LongestPoll;
                if (_socket.Poll(poll, SelectMode.SelectRead))
                {
                    break;
                }

                if (left <= poll)
                {
                    return 0;
                }
            }

            int count = buffer.IsEmpty ? 0 : _socket.Receive(buffer);
            return count > 0 || buffer.IsEmpty ? count : throw Lost(null);
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            throw Lost(e);
        }
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes)
    {
        if (_isDead)
        {
            throw Lost(null);
        }

        try
        {
            while (!bytes.IsEmpty)
            {
                bytes = bytes[_socket.Send(bytes)..];
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            throw Lost(e);
        }
    }

    /// <summary>Closes the connection.</summary>
    public void Dispose()
    {
        if (Interlocked.Exchange(ref _isClosed, 1) == 0)
        {
            _isDead = true;
            _socket.Dispose();
        }
    }

    private static string Sentence(SocketError error, string host, string where) => error switch
    {
        SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain or SocketError.NoRecovery =>
            $"There is no host \"{host}\": check the name, or give its number.",
        SocketError.ConnectionRefused => $"Nobody listens at the {where}: start the board's program first, or check the port.",
        SocketError.NetworkUnreachable or SocketError.HostUnreachable => $"The {where} cannot be reached from here: check cable, network and address.",
        SocketError.TimedOut => $"The {where} did not answer: is the host on, and does its firewall let the port through?",
        _ => $"The {where} cannot be opened ({error}): check host and port.",
    };

    private LinkLostException Lost(Exception? cause)
    {
        bool wasClosed = _isClosed != 0;
        _isDead = true;
        return new LinkLostException(
            wasClosed ? $"The {Name} was closed."
            : cause is SocketException { SocketErrorCode: SocketError.TimedOut or SocketError.WouldBlock }
                ? $"The {Name} takes no more bytes: the other end has stopped reading; restart it."
            : $"The {Name} is gone: the other end has closed the connection; start it again.",
            cause);
    }
}
