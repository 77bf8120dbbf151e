// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Files.Edf;

/// <summary>Writes EDF, EDF+, BDF and BDF+ files record by record, strictly by the standards; memory is one record.</summary>
/// <remarks>
/// For each record: <see cref="Samples"/> for every ordinary signal, <see cref="TryAnnotate(long, long?, ReadOnlySpan{string})"/> as often as wanted,
/// <see cref="EndRecord"/>. Where there are annotations, the time of the record goes before them by itself.
/// </remarks>
public sealed class EdfFileWriter : IDisposable
{
    private readonly Stream _stream;
    private readonly byte[] _record;
    private readonly int[] _begins;
    private readonly int _notes;
    private readonly int _width;
    private long _recordNs;
    private int _used;
    private bool _isDone;

    /// <summary>Starts a file.</summary>
    /// <param name="stream">Takes the bytes; closed with the writer; seekable unless the header has the number of records.</param>
    /// <param name="header">The header; where its number of records is −1, <see cref="Complete"/> puts it in.</param>
    /// <exception cref="ArgumentException">The header is not one that the standard allows.</exception>
    public EdfFileWriter(Stream stream, EdfHeader header)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(header);
        _stream = stream;
        Header = header;
        stream.Write(EdfHeaderWriter.Bytes(header));
        _width = header.BytesPerSample;
        _record = new byte[header.RecordBytes];
        _begins = new int[header.Signals.Count];
        _notes = -1;
        for (int i = 0; i < _begins.Length; i++)
        {
            _begins[i] = i == 0 ? 0 : _begins[i - 1] + (header.Signals[i - 1].SamplesPerRecord * _width);
            _notes = _notes < 0 && header.Signals[i].IsAnnotation ? i : _notes;
        }

        BeginRecord(0);
    }

    /// <summary>The header as it was given.</summary>
    public EdfHeader Header { get; }

    /// <summary>Records written.</summary>
    public long RecordCount { get; private set; }

    /// <summary>Bytes for annotations that are left in the current record.</summary>
    public int AnnotationRoom => _notes < 0 ? 0 : NoteBytes.Length - _used;

    private Span<byte> NoteBytes => _record.AsSpan(_begins[_notes], Header.Signals[_notes].SamplesPerRecord * _width);

    /// <summary>Says when the current record begins, in a file whose records may have gaps between them; before its annotations.</summary>
    /// <param name="nanoseconds">Begin [ns from the start of the file]; not before the end of the record before.</param>
    public void BeginRecord(long nanoseconds)
    {
        _recordNs = nanoseconds;
        if (_notes < 0)
        {
            return;
        }

        NoteBytes.Clear();
        var time = new EdfTalBuilder(NoteBytes, nanoseconds);
        time.EndText();
        time.EndText();
        time.End();
        _used = !time.IsFull ? time.Length : throw new InvalidOperationException("The time of a record does not fit into its annotations.");
    }

    /// <summary>Puts all samples of one signal into the current record.</summary>
    /// <param name="signal">Number of the signal.</param>
    /// <param name="codes">As many as the signal has in a record, each within the digital limits of the format.</param>
    public void Samples(int signal, ReadOnlySpan<int> codes)
    {
        if (codes.Length != Header.Signals[signal].SamplesPerRecord)
        {
            throw new ArgumentException($"{codes.Length} samples; a record has {Header.Signals[signal].SamplesPerRecord}.", nameof(codes));
        }

        Span<byte> bytes = _record.AsSpan(_begins[signal], codes.Length * _width);
        (int lowest, int highest) = (Header.LowestSample, Header.HighestSample);
        for (int i = 0, at = 0; i < codes.Length; i++, at += _width)
        {
            int code = codes[i];
            if (code < lowest || code > highest)
            {
                throw new ArgumentOutOfRangeException(nameof(codes), code, $"A sample must be {lowest} to {highest}.");
            }

            // The bytes of a negative code too: what a checked conversion would refuse.
            bytes[at] = unchecked((byte)code);
            bytes[at + 1] = unchecked((byte)(code >> 8));
            if (_width == 3)
            {
                bytes[at + 2] = unchecked((byte)(code >> 16));
            }
        }
    }

    /// <summary>Puts an annotation into the current record.</summary>
    /// <param name="onsetNs">Onset [ns from the start of the file].</param>
    /// <param name="durationNs">Duration [ns]; null for none.</param>
    /// <param name="texts">One or more texts.</param>
    /// <returns>Whether there was room.</returns>
    public bool TryAnnotate(long onsetNs, long? durationNs, params ReadOnlySpan<string> texts)
    {
        if (_notes < 0)
        {
            return false;
        }

        var tal = new EdfTalBuilder(NoteBytes[_used..], onsetNs);
        if (durationNs is long duration)
        {
            tal.Duration(duration);
        }

        tal.EndText();
        foreach (string text in texts)
        {
            tal.Text(text);
            tal.EndText();
        }

        tal.End();
        return Take(tal);
    }

    /// <summary>Writes the current record and begins the next, right after it.</summary>
    public void EndRecord()
    {
        ObjectDisposedException.ThrowIf(_isDone, this);
        _stream.Write(_record);
        RecordCount++;
        BeginRecord(_recordNs + (long)(Header.RecordDurationS * 1_000_000_000));
    }

    /// <summary>Puts the number of records into the header, unless it is there already, and closes the file.</summary>
    /// <exception cref="InvalidOperationException">There are fewer or more records than the header says.</exception>
    public void Complete()
    {
        ObjectDisposedException.ThrowIf(_isDone, this);
        if (Header.RecordCount >= 0)
        {
            Dispose();
            if (Header.RecordCount != RecordCount)
            {
                throw new InvalidOperationException($"{RecordCount} records were written; the header says {Header.RecordCount}.");
            }

            return;
        }

        _stream.Position = EdfFields.RecordCount.Begin;
        _stream.Write(Encoding.ASCII.GetBytes(RecordCount.ToString(CultureInfo.InvariantCulture).PadRight(EdfFields.RecordCount.Width)));
        Dispose();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _isDone = true;
        _stream.Dispose();
    }

    /// <summary>A builder over the room that is left in the current record; what it holds counts once it is given to <see cref="Take"/>.</summary>
    internal EdfTalBuilder Builder(long onsetNs) => new(NoteBytes[_used..], onsetNs);

    /// <summary>Keeps what a builder has put into the current record, unless it did not fit.</summary>
    internal bool Take(in EdfTalBuilder tal)
    {
        if (tal.IsFull)
        {
            NoteBytes[_used..].Clear();
            return false;
        }

        _used += tal.Length;
        return true;
    }

    /// <summary>Bytes of annotations in the current record, for <see cref="Rewind"/>.</summary>
    internal int AnnotationMark => _used;

    /// <summary>Takes everything back that was annotated in the current record since a mark.</summary>
    internal void Rewind(int mark)
    {
        NoteBytes[mark.._used].Clear();
        _used = mark;
    }

    /// <summary>Puts annotations into the current record that are made already.</summary>
    internal bool TryPut(ReadOnlySpan<byte> lists)
    {
        if (lists.Length > AnnotationRoom)
        {
            return false;
        }

        lists.CopyTo(NoteBytes[_used..]);
        _used += lists.Length;
        return true;
    }
}
