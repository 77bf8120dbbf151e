// SPDX-License-Identifier: MIT
using SensorSim.Links.Lines;

namespace SensorSim.Links.Tests.Support;

/// <summary>A line whose both ends are in the test: what was written can be looked at, what is to be read is put in. Allocates nothing.</summary>
internal sealed class MemoryLine : ILink
{
    private readonly ByteRing _written = new(1 << 20);
    private readonly ByteRing _toRead = new(1 << 20);
    private readonly FakeClock? _clock;

    public MemoryLine(FakeClock? clock = null) => _clock = clock;

    public string Name => "line of the test";

    public long? BytesPerSecond => 92_160;

    public bool IsDisposed { get; private set; }

    /// <summary>Puts in bytes of the other end.</summary>
    public void Send(ReadOnlySpan<byte> bytes) => _toRead.Put(bytes);

    /// <summary>Takes what was written.</summary>
    public byte[] Written()
    {
        byte[] bytes = new byte[_written.Count];
        _written.Take(bytes);
        return bytes;
    }

    /// <summary>Takes what was written and fits.</summary>
    public int TakeWritten(Span<byte> into) => _written.Take(into);

    public int Read(Span<byte> buffer, TimeSpan atMost)
    {
        if (_toRead.Count == 0)
        {
            _clock?.Move(atMost.TotalMilliseconds);
        }

        return _toRead.Take(buffer);
    }

    public void Write(ReadOnlySpan<byte> bytes) => _written.Put(bytes);

    public void Dispose() => IsDisposed = true;
}
