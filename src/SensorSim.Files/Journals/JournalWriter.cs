// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Journals;

/// <summary>Adds records to the end of a journal.</summary>
/// <remarks>
/// Each record goes to the operating system as it comes, so that the end of this process loses none of them; to the disk itself it goes at
/// least once a second, so that the end of the power loses little.
/// </remarks>
public sealed class JournalWriter : IDisposable
{
    private static readonly TimeSpan s_flushInterval = TimeSpan.FromSeconds(1);

    private readonly Stream _stream;
    private readonly string _name;
    private readonly Action _toDisk;
    private readonly TimeProvider _time;
    private byte[] _frame = new byte[1 << 12];
    private long _end;
    private long _flushedAt;
    private bool _isDirty;
    private bool _hasFailed;

    /// <summary>Creates a writer.</summary>
    /// <param name="stream">The file; its bytes behind <paramref name="end"/> are cut off. Closed with the writer.</param>
    /// <param name="name">Its name in messages.</param>
    /// <param name="end">Where the last whole record ends.</param>
    /// <param name="toDisk">Sends what the operating system holds to the disk.</param>
    /// <param name="time">Clock for the interval of sending; null: the system's.</param>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public JournalWriter(Stream stream, string name, long end, Action toDisk, TimeProvider? time = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(toDisk);
        _stream = stream;
        _name = name;
        _end = end;
        _toDisk = toDisk;
        _time = time ?? TimeProvider.System;
        _flushedAt = _time.GetTimestamp();
        if (stream.Length > end)
        {
            stream.SetLength(end);
        }

        stream.Position = end;
    }

    /// <summary>Adds a record.</summary>
    /// <param name="record">Its content.</param>
    /// <exception cref="IOException">The disk is full or fails; the records before this one are whole, and no further one can be added.</exception>
    public void Append(ReadOnlySpan<byte> record)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(record.Length, JournalFormat.LongestBytes);
        ThrowIfFailed();
        int total = JournalFormat.FrameBytes + record.Length;
        if (total > _frame.Length)
        {
            _frame = new byte[Math.Max(total, 2 * _frame.Length)];
        }

        record.CopyTo(_frame.AsSpan(JournalFormat.FrameBytes));
        JournalFormat.Frame(_frame.AsSpan(0, total));
        try
        {
            _stream.Write(_frame, 0, total);
            _end += total;
            _isDirty = true;
            FlushIfDue();
        }
        catch (IOException e) when (!_hasFailed)
        {
            throw Failed(e);
        }
    }

    /// <summary>Sends to the disk what is a second old; to be called now and then while no record comes.</summary>
    /// <exception cref="IOException">The disk is full or fails.</exception>
    public void FlushIfDue()
    {
        if (_isDirty && _time.GetElapsedTime(_flushedAt) >= s_flushInterval)
        {
            Flush();
        }
    }

    /// <summary>Sends every record to the disk.</summary>
    /// <exception cref="IOException">The disk is full or fails.</exception>
    public void Flush()
    {
        ThrowIfFailed();
        try
        {
            _toDisk();
        }
        catch (IOException e)
        {
            throw Failed(e);
        }

        _isDirty = false;
        _flushedAt = _time.GetTimestamp();
    }

    /// <summary>Closes the file; what was added is in it.</summary>
    public void Dispose()
    {
        if (_isDirty && !_hasFailed)
        {
            try
            {
                _toDisk();
            }
            catch (IOException)
            {
                // A record that did not reach the disk is made again; whoever must know calls Flush.
            }
        }

        _stream.Dispose();
    }

    // The torn record is cut off at once where that still works; where not, whoever opens the journal next does it.
    private IOException Failed(IOException cause)
    {
        _hasFailed = true;
        try
        {
            _stream.SetLength(_end);
        }
        catch (IOException)
        {
            // The next opening cuts.
        }

        return new IOException(
            $"{_name}: the journal cannot be written ({cause.Message.TrimEnd('.')}); what is in it stays good: make room and give the same command again", cause);
    }

    private void ThrowIfFailed()
    {
        if (_hasFailed)
        {
            throw new IOException($"{_name}: the journal could not be written before and takes nothing more");
        }
    }
}
