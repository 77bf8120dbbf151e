// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using System.IO.Ports;

namespace SensorSim.Links.Lines;

/// <summary>A link over a serial port: 8 data bits, no parity, 1 stop bit.</summary>
/// <remarks>
/// DTR and RTS are left as the system sets them: on many boards they reset the processor. Two background threads serve the port, because
/// System.IO.Ports may block for ever in a write, and in a close after it, once the other end is gone; it also makes some garbage for each
/// chunk of bytes, on those threads.
/// </remarks>
public sealed class SerialLink : ILink
{
    private const int BitsPerByte = 10;
    private const int ChunkBytes = 256;

    // What drivers may hold beside what is written; all of it has to leave before a full buffer takes more.
    private const int DriverBytes = 1024;
    private const int ReadTimeoutMs = 1000;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan CloseLimit = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan LookEvery = TimeSpan.FromMilliseconds(200);

    private readonly SerialPort _port;
    private readonly PortLock _lock;
    private readonly StreamPump _pump;
    private readonly string _realPath;
    private readonly TimeSpan _chunkLimit;
    private long _lookedAt;
    private int _isClosed;

    private SerialLink(SerialPort port, PortLock portLock, string name, string realPath, TimeSpan chunkLimit)
    {
        _port = port;
        _lock = portLock;
        _realPath = realPath;
        _chunkLimit = chunkLimit;
        Name = name;
        BytesPerSecond = port.BaudRate / BitsPerByte;
        _lookedAt = Stopwatch.GetTimestamp();
        _pump = new StreamPump(port.BaseStream, port.BaseStream, name, ChunkBytes, false);
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public long? BytesPerSecond { get; }

    /// <summary>Opens a port.</summary>
    /// <param name="port">Path (<c>/dev/ttyACM0</c>) or name (<c>COM3</c>).</param>
    /// <param name="options">Rate and hand-shake.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is out of range.</exception>
    /// <exception cref="LinkUnavailableException">It cannot be opened; the message is one sentence that says what would be right.</exception>
    public static SerialLink Open(string port, LinkOptions options)
    {
        ArgumentException.ThrowIfNullOrEmpty(port);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.BaudRate, LinkOptions.LowestBaud, nameof(options));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.BaudRate, LinkOptions.HighestBaud, nameof(options));
        string realPath = RealPath(port);
        PortLock portLock = TakeLock(port, realPath);
        SerialPort? opened = null;
        try
        {
            TimeSpan chunkLimit = Patience + TimeSpan.FromSeconds((double)(ChunkBytes + DriverBytes) * BitsPerByte / options.BaudRate);
            opened = OpenPort(port, realPath, options, chunkLimit);
            string name = string.Create(CultureInfo.InvariantCulture, $"serial port {port} at {options.BaudRate} baud");
            return new SerialLink(opened, portLock, name, realPath, chunkLimit);
        }
        catch
        {
            opened?.Dispose();
            portLock.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public int Read(Span<byte> buffer, TimeSpan atMost)
    {
        long begin = Stopwatch.GetTimestamp();
        while (true)
        {
            TimeSpan left = atMost - Stopwatch.GetElapsedTime(begin);
            int count = _pump.Read(buffer, left < LookEvery ? left : LookEvery);
            if (count > 0 || buffer.IsEmpty)
            {
                return count;
            }

            EndIfUnplugged();
            if (left <= LookEvery)
            {
                return 0;
            }
        }
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes)
    {
        EndIfUnplugged();
        _pump.Write(bytes, _chunkLimit);
    }

    /// <summary>Closes the port; takes two seconds at most, also when the other end is gone.</summary>
    public void Dispose()
    {
        if (Interlocked.Exchange(ref _isClosed, 1) != 0)
        {
            return;
        }

        _pump.End($"The {Name} was closed.");
        SlowClose.Run(_pump.OutputInUse, _port.Dispose, CloseLimit);
        _lock.Dispose();
    }

    private static string RealPath(string port)
    {
        if (OperatingSystem.IsWindows())
        {
            // The name of a COM port is no path; whether it is there shows in the list.
            return PortTrouble.Names().Contains(port, StringComparer.OrdinalIgnoreCase)
                ? port.ToUpperInvariant()
                : throw new LinkUnavailableException(PortTrouble.Missing(port));
        }

        try
        {
            string path = File.ResolveLinkTarget(port, true)?.FullName ?? Path.GetFullPath(port);
            return Path.Exists(path) ? path : throw new LinkUnavailableException(PortTrouble.Missing(port));
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new LinkUnavailableException(PortTrouble.Missing(port), e);
        }
        catch (IOException e) when (e is not LinkUnavailableException)
        {
            throw new LinkUnavailableException($"Serial port {port} cannot be opened: its links lead round in a circle.", e);
        }
    }

    private static PortLock TakeLock(string port, string realPath)
    {
        try
        {
            return PortLock.Take(realPath) ?? throw new LinkUnavailableException(PortTrouble.Busy(port));
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException and not LinkUnavailableException)
        {
            throw new LinkUnavailableException($"Serial port {port} cannot be locked: the folder {Path.GetTempPath()} must be writable.", e);
        }
    }

    private static SerialPort OpenPort(string port, string realPath, LinkOptions options, TimeSpan chunkLimit)
    {
        var serial = new SerialPort(port, options.BaudRate, Parity.None, 8, StopBits.One)
        {
            ReadTimeout = ReadTimeoutMs,
            WriteTimeout = (int)chunkLimit.TotalMilliseconds,
        };
        if (options.UsesRtsCts)
        {
            serial.Handshake = Handshake.RequestToSend;
        }

        try
        {
            serial.Open();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or InvalidOperationException)
        {
            serial.Dispose();
            throw new LinkUnavailableException(PortTrouble.Refused(port, realPath, e), e);
        }

        try
        {
            // A port without these lines takes the hand-shake and does nothing about it; only asking for the state of a line tells.
            _ = options.UsesRtsCts && serial.CtsHolding;
            return serial;
        }
        catch (IOException e)
        {
            serial.Dispose();
            throw new LinkUnavailableException($"Serial port {port} has no RTS and CTS lines: leave the RTS/CTS option out.", e);
        }
    }

    // Some systems leave a port that was pulled out open without a word: its count of bytes or its path then tells.
    private void EndIfUnplugged()
    {
        long last = Volatile.Read(ref _lookedAt);
        if (_pump.IsDead || Stopwatch.GetElapsedTime(last) < LookEvery || Interlocked.CompareExchange(ref _lookedAt, Stopwatch.GetTimestamp(), last) != last)
        {
            return;
        }

        bool isThere;
        try
        {
            isThere = _port.BytesToRead >= 0 && (OperatingSystem.IsWindows() || File.Exists(_realPath));
        }
        catch (Exception e) when (e is IOException or InvalidOperationException or UnauthorizedAccessException)
        {
            isThere = false;
        }

        if (!isThere)
        {
            _pump.End($"The {Name} is gone: the other end was unplugged or has ended; connect it again.");
        }
    }
}
