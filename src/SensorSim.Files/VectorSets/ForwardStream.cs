// SPDX-License-Identifier: MIT
namespace SensorSim.Files.VectorSets;

/// <summary>A stream that can only be written, from its begin on.</summary>
public abstract class ForwardStream : Stream
{
    private long _count;

    /// <inheritdoc/>
    public sealed override bool CanRead => false;

    /// <inheritdoc/>
    public sealed override bool CanSeek => false;

    /// <inheritdoc/>
    public sealed override bool CanWrite => !IsClosed;

    /// <inheritdoc/>
    public sealed override long Length => _count;

    /// <inheritdoc/>
    public sealed override long Position
    {
        get => _count;
        set => throw new NotSupportedException();
    }

    /// <summary>Whether nothing more can be written.</summary>
    protected bool IsClosed { get; private set; }

    /// <inheritdoc/>
    public override void Flush()
    {
        // Nothing is held back here.
    }

    /// <inheritdoc/>
    public sealed override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    /// <inheritdoc/>
    public sealed override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public sealed override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public sealed override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public sealed override void Write(ReadOnlySpan<byte> buffer)
    {
        ObjectDisposedException.ThrowIf(IsClosed, this);
        Take(buffer);
        _count += buffer.Length;
    }

    /// <inheritdoc/>
    protected sealed override void Dispose(bool disposing)
    {
        if (disposing && !IsClosed)
        {
            IsClosed = true;
            Finish();
        }

        base.Dispose(disposing);
    }

    /// <summary>Takes bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    protected abstract void Take(ReadOnlySpan<byte> bytes);

    /// <summary>Called once, when nothing more comes.</summary>
    protected abstract void Finish();
}
