// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Links.Lines;

/// <summary>Gives two blocking streams time limits: one thread reads ahead into a ring, another writes what it is handed.</summary>
/// <remarks>
/// Streams of pipes and serial ports block, some of them for ever once the other end is gone. Here they block threads of their own; whoever
/// calls <see cref="Read"/> or <see cref="Write"/> waits for a signal with a limit. Neither of the two allocates. The first failure of either
/// thread makes the pump dead: what had come before can still be read, then both calls throw.
/// </remarks>
internal sealed class StreamPump
{
    private const int RingBytes = 65536;

    private readonly Stream _input;
    private readonly Stream _output;
    private readonly bool _flushes;
    private readonly string _name;
    private readonly object _inGate = new();
    private readonly object _outGate = new();
    private readonly ByteRing _ring = new(RingBytes);
    private readonly byte[] _outBytes;
    private int _outCount;
    private volatile string? _deadBecause;
    private volatile Exception? _cause;

    /// <summary>Starts both threads.</summary>
    /// <param name="input">Where bytes come from.</param>
    /// <param name="output">Where bytes go.</param>
    /// <param name="name">Name of the link, for messages.</param>
    /// <param name="chunkBytes">Most bytes written at once.</param>
    /// <param name="flushes">Whether the output keeps bytes back until it is flushed.</param>
    public StreamPump(Stream input, Stream output, string name, int chunkBytes, bool flushes)
    {
        _input = input;
        _output = output;
        _name = name;
        _flushes = flushes;
        _outBytes = new byte[chunkBytes];
        new Thread(ReadAhead) { IsBackground = true, Name = "link in" }.Start();
        new Thread(WriteBehind) { IsBackground = true, Name = "link out" }.Start();
    }

    /// <summary>Held by the writing thread while it writes, and to be held by whoever closes the streams.</summary>
    public object OutputInUse { get; } = new();

    /// <summary>Whether the other end is gone or <see cref="End"/> was called.</summary>
    public bool IsDead => _deadBecause is not null;

    /// <summary>Reads what has come.</summary>
    /// <param name="buffer">Receives the bytes.</param>
    /// <param name="atMost">How long to wait for the first byte.</param>
    /// <returns>Bytes read; 0 when none came in that time.</returns>
    /// <exception cref="LinkLostException">The pump is dead and everything that had come was read.</exception>
    public int Read(Span<byte> buffer, TimeSpan atMost)
    {
        long begin = Stopwatch.GetTimestamp();
        lock (_inGate)
        {
            while (_ring.Count == 0)
            {
                ThrowIfDead();
                TimeSpan left = atMost - Stopwatch.GetElapsedTime(begin);
                if (left <= TimeSpan.Zero || buffer.IsEmpty)
                {
                    return 0;
                }

                Monitor.Wait(_inGate, WholeMs(left));
            }

            int count = _ring.Take(buffer);
            Monitor.PulseAll(_inGate);
            return count;
        }
    }

    /// <summary>Writes all bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="chunkLimit">How long one chunk may take.</param>
    /// <exception cref="LinkLostException">The other end is gone or takes nothing any more.</exception>
    public void Write(ReadOnlySpan<byte> bytes, TimeSpan chunkLimit)
    {
        while (!bytes.IsEmpty)
        {
            int count = Math.Min(bytes.Length, _outBytes.Length);
            WriteChunk(bytes[..count], chunkLimit);
            bytes = bytes[count..];
        }
    }

    /// <summary>Makes the pump dead; the first reason stays. Nothing is written from here on.</summary>
    /// <param name="reason">One sentence for those who still read or write.</param>
    /// <param name="cause">The failure, if there was one.</param>
    public void End(string reason, Exception? cause = null)
    {
        if (_deadBecause is null)
        {
            _cause = cause;
            _deadBecause = reason;
        }

        lock (_inGate)
        {
            Monitor.PulseAll(_inGate);
        }

        lock (_outGate)
        {
            Monitor.PulseAll(_outGate);
        }
    }

    private static int WholeMs(TimeSpan time) => (int)Math.Min(int.MaxValue, Math.Ceiling(time.TotalMilliseconds));

    private void WriteChunk(ReadOnlySpan<byte> bytes, TimeSpan limit)
    {
        long begin = Stopwatch.GetTimestamp();
        lock (_outGate)
        {
            ThrowIfDead();
            bytes.CopyTo(_outBytes);
            _outCount = bytes.Length;
            Monitor.PulseAll(_outGate);
            while (_outCount > 0)
            {
                ThrowIfDead();
                TimeSpan left = limit - Stopwatch.GetElapsedTime(begin);
                if (left <= TimeSpan.Zero)
                {
                    End(TakesNothing());
                    ThrowIfDead();
                }

                Monitor.Wait(_outGate, WholeMs(left));
            }
        }
    }

    private void ThrowIfDead()
    {
        if (_deadBecause is { } reason)
        {
            throw new LinkLostException(reason, _cause);
        }
    }

    private void ReadAhead()
    {
        byte[] bytes = new byte[4096];
        while (!IsDead)
        {
            int count;
            try
            {
                count = _input.Read(bytes, 0, bytes.Length);
            }
            catch (TimeoutException)
            {
                continue;
            }
            catch (Exception e)
            {
                // Whatever a stream throws here, nothing more will come; in a thread of its own nobody else could tell.
                End(Gone(), e);
                return;
            }

            if (count <= 0)
            {
                End(Gone());
                return;
            }

            Keep(bytes.AsSpan(0, count));
        }
    }

    private void Keep(ReadOnlySpan<byte> bytes)
    {
        lock (_inGate)
        {
            while (!bytes.IsEmpty)
            {
                int count = Math.Min(bytes.Length, _ring.Free);
                _ring.Put(bytes[..count]);
                bytes = bytes[count..];
                Monitor.PulseAll(_inGate);
                if (bytes.IsEmpty || IsDead)
                {
                    return;
                }

                Monitor.Wait(_inGate);
            }
        }
    }

    private void WriteBehind()
    {
        while (true)
        {
            int count;
            lock (_outGate)
            {
                while (_outCount == 0 && !IsDead)
                {
                    Monitor.Wait(_outGate);
                }

                count = _outCount;
            }

            if (IsDead || !TryWrite(count))
            {
                return;
            }

            lock (_outGate)
            {
                _outCount = 0;
                Monitor.PulseAll(_outGate);
            }
        }
    }

    private bool TryWrite(int count)
    {
        try
        {
            lock (OutputInUse)
            {
                if (IsDead)
                {
                    return false;
                }

                _output.Write(_outBytes, 0, count);
                if (_flushes)
                {
                    _output.Flush();
                }
            }

            return true;
        }
        catch (TimeoutException e)
        {
            End(TakesNothing(), e);
            return false;
        }
        catch (Exception e)
        {
            // As for reading: no further byte will go through.
            End(Gone(), e);
            return false;
        }
    }

    private string Gone() => $"The {_name} is gone: the other end was unplugged or has ended; connect it again.";

    private string TakesNothing() => $"The {_name} takes no more bytes: the other end has stopped reading; restart it.";
}
