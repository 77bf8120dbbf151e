// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Standard output for results alone: once a detector runs in this process, what everyone else prints there goes to standard error.</summary>
/// <remarks>On Linux and macOS by <c>dup</c> and <c>dup2</c>; on Windows only what a .NET detector writes to the console is kept away.</remarks>
public sealed unsafe partial class ResultStream : Stream
{
    private const int BrokenPipe = 32;
    private const int Interrupted = 4;
    private static int s_moved = -1;

    private readonly Stream _usual;

    /// <summary>Creates the stream.</summary>
    /// <param name="usual">Standard output as it is at the start; stays the caller's.</param>
    public ResultStream(Stream usual) => _usual = usual;

    /// <inheritdoc/>
    public override bool CanRead => false;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => true;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    public override void Flush() => _usual.Flush();

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    /// <exception cref="IOException">It cannot be written, but for a reader that has gone: that ends quietly.</exception>
    public override void Write(ReadOnlySpan<byte> buffer)
    {
        if (s_moved < 0)
        {
            _usual.Write(buffer);
            return;
        }

        while (buffer.Length > 0)
        {
            nint written;
            fixed (byte* at = buffer)
            {
                written = WriteTo(s_moved, at, buffer.Length);
            }

            int error = written < 0 ? Marshal.GetLastPInvokeError() : 0;
            if (error == BrokenPipe)
            {
                return;
            }

            if (written < 0 && error != Interrupted)
            {
                throw new IOException($"standard output cannot be written: {Marshal.GetPInvokeErrorMessage(error)}");
            }

            buffer = buffer[(int)Math.Max(0, written)..];
        }
    }

    /// <summary>Leaves the number of standard output to standard error and keeps the old one for results. When that fails all stays as it is.</summary>
    internal static void MoveAway()
    {
        if (s_moved >= 0 || OperatingSystem.IsWindows())
        {
            return;
        }

        int kept = Duplicate(1);
        if (kept >= 0 && DuplicateTo(2, 1) >= 0)
        {
            s_moved = kept;
        }
    }

    [LibraryImport("libc", EntryPoint = "dup", SetLastError = true)]
    private static partial int Duplicate(int from);

    [LibraryImport("libc", EntryPoint = "dup2", SetLastError = true)]
    private static partial int DuplicateTo(int from, int to);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    private static partial nint WriteTo(int file, byte* bytes, nint count);
}
