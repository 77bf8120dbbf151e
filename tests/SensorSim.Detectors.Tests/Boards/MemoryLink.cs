// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Links;

namespace SensorSim.Tests.Boards;

/// <summary>One end of a link in memory. What either end writes the other one reads; closing one end loses the link for both.</summary>
internal sealed class MemoryLink : ILink
{
    private readonly Pipe _in;
    private readonly Pipe _out;

    private MemoryLink(Pipe input, Pipe output) => (_in, _out) = (input, output);

    /// <inheritdoc/>
    public string Name => "link in memory";

    /// <inheritdoc/>
    public long? BytesPerSecond => null;

    /// <summary>Creates both ends.</summary>
    public static (MemoryLink Host, MemoryLink Board) Pair()
    {
        var (there, back) = (new Pipe(), new Pipe());
        return (new MemoryLink(back, there), new MemoryLink(there, back));
    }

    /// <inheritdoc/>
    public int Read(Span<byte> buffer, TimeSpan atMost) => _in.Read(buffer, atMost);

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes) => _out.Write(bytes);

    /// <inheritdoc/>
    public void Dispose()
    {
        _in.Close();
        _out.Close();
    }

    // Bytes of one direction; blocks who writes more than is taken, as a pipe does.
    private sealed class Pipe
    {
        private const int Capacity = 65_536;
        private readonly byte[] _bytes = new byte[Capacity];
        private readonly object _gate = new();
        private int _first;
        private int _count;
        private bool _isClosed;

        public int Read(Span<byte> buffer, TimeSpan atMost)
        {
            long begin = Stopwatch.GetTimestamp();
            lock (_gate)
            {
                while (_count == 0)
                {
                    if (_isClosed)
                    {
                        throw new LinkLostException("The link in memory was closed.");
                    }

                    int left = (int)Math.Ceiling((atMost - Stopwatch.GetElapsedTime(begin)).TotalMilliseconds);
                    if (left <= 0)
                    {
                        return 0;
                    }

                    Monitor.Wait(_gate, left);
                }

                int count = Math.Min(_count, buffer.Length);
                for (int i = 0; i < count; i++)
                {
                    buffer[i] = _bytes[(_first + i) % Capacity];
                }

                _first = (_first + count) % Capacity;
                _count -= count;
                Monitor.PulseAll(_gate);
                return count;
            }
        }

        public void Write(ReadOnlySpan<byte> bytes)
        {
            lock (_gate)
            {
                foreach (byte b in bytes)
                {
                    while (_count == Capacity && !_isClosed)
                    {
                        Monitor.Wait(_gate);
                    }

                    if (_isClosed)
                    {
                        throw new LinkLostException("The link in memory was closed.");
                    }

                    _bytes[(_first + _count) % Capacity] = b;
                    _count++;
                }

                Monitor.PulseAll(_gate);
            }
        }

        public void Close()
        {
            lock (_gate)
            {
                _isClosed = true;
                Monitor.PulseAll(_gate);
            }
        }
    }
}
