// SPDX-License-Identifier: MIT
using System.Security.Cryptography;

namespace SensorSim.Files.VectorSets;

/// <summary>A stream that is written forward: it counts and hashes what passes, and hands it on.</summary>
public sealed class HashedStream : Stream
{
    private readonly Stream _inner;
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly Action<ReadOnlySpan<byte>>? _watch;
    private bool _isClosed;

    /// <summary>Wraps a stream.</summary>
    /// <param name="inner">Takes the bytes; closed with this one.</param>
    /// <param name="watch">Also told the bytes; may be null.</param>
    public HashedStream(Stream inner, Action<ReadOnlySpan<byte>>? watch = null)
    {
        ArgumentNullException.ThrowIfNull(inner);
        _inner = inner;
        _watch = watch;
    }

    /// <summary>Bytes that have passed.</summary>
    public long Count { get; private set; }

    /// <summary>SHA-256 of everything, 64 lower-case hexadecimal digits; empty until closed.</summary>
    public string Sha256 { get; private set; } = "";

    /// <inheritdoc/>
    public override bool CanRead => false;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => !_isClosed;

    /// <inheritdoc/>
    public override long Length => Count;

    /// <inheritdoc/>
    public override long Position
    {
        get => Count;
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    public override void Flush() => _inner.Flush();

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public override void Write(ReadOnlySpan<byte> buffer)
    {
        ObjectDisposedException.ThrowIf(_isClosed, this);
        _hash.AppendData(buffer);
        _watch?.Invoke(buffer);
        _inner.Write(buffer);
        Count += buffer.Length;
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing && !_isClosed)
        {
            _isClosed = true;
            Sha256 = Convert.ToHexStringLower(_hash.GetHashAndReset());
            _hash.Dispose();
            _inner.Dispose();
        }

        base.Dispose(disposing);
    }
}
