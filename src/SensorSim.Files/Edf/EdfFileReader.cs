// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;

namespace SensorSim.Files.Edf;

/// <summary>Reads the records of an EDF, EDF+, BDF or BDF+ file one at a time; memory is one record, however long the file.</summary>
public sealed class EdfFileReader : IDisposable
{
    private readonly FileStream _stream;
    private readonly byte[] _record;
    private readonly int[] _begins;
    private readonly int _width;

    /// <summary>Opens a file, reads its header and compares it with the length of the file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is not what it should be.</exception>
    public EdfFileReader(string path)
    {
        FileName = path;
        _stream = InputFiles.OpenRead(path);
        try
        {
            Header = EdfHeaderReader.Read(_stream, path);
            RecordCount = CountRecords();
            _width = Header.BytesPerSample;
            _record = new byte[RecordCount == 0 ? 0 : Header.RecordBytes];
            _begins = new int[Header.Signals.Count];
            for (int i = 1; i < _begins.Length; i++)
            {
                _begins[i] = _begins[i - 1] + (Header.Signals[i - 1].SamplesPerRecord * _width);
            }

            FirstAnnotations = IndexOfFirstAnnotations(Header);
        }
        catch
        {
            _stream.Dispose();
            throw;
        }
    }

    /// <summary>The file as the user named it.</summary>
    public string FileName { get; }

    /// <summary>What the header says.</summary>
    public EdfHeader Header { get; }

    /// <summary>Whole records in the file.</summary>
    public long RecordCount { get; }

    /// <summary>Number of the record that is loaded; −1 before the first.</summary>
    public long Record { get; private set; } = -1;

    /// <summary>Number of the first signal with annotations, which also says when records begin; −1 when there is none.</summary>
    public int FirstAnnotations { get; }

    /// <summary>Bytes after the last whole record of a file whose writer never closed it.</summary>
    public long LeftOverBytes { get; private set; }

    /// <summary>Whether a file begins as EDF or BDF files do, whatever its name.</summary>
    /// <param name="path">Path of a file.</param>
    /// <exception cref="InputFileException">There is no such file.</exception>
    public static bool IsEdf(string path)
    {
        using FileStream stream = InputFiles.OpenRead(path);
        Span<byte> start = stackalloc byte[EdfFields.Version.Width];
        return stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false) == start.Length && Magic(start) is not null;
    }

    /// <summary>Loads a record.</summary>
    /// <param name="record">Number of the record, from 0.</param>
    /// <exception cref="InputFileException">The file has become shorter since it was opened.</exception>
    public void Load(long record)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(record);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(record, RecordCount);
        if (record == Record)
        {
            return;
        }

        if (record != Record + 1 || record == 0)
        {
            _stream.Position = Header.HeaderBytes + (record * Header.RecordBytes);
        }

        if (_stream.ReadAtLeast(_record, _record.Length, throwOnEndOfStream: false) < _record.Length)
        {
            throw Error(record, "the file has become shorter since it was opened; it must not change while it is read");
        }

        Record = record;
    }

    /// <summary>Reads samples of the loaded record.</summary>
    /// <param name="signal">Number of the signal.</param>
    /// <param name="first">First sample within the record.</param>
    /// <param name="codes">Receives the samples.</param>
    public void Samples(int signal, int first, Span<int> codes)
    {
        ReadOnlySpan<byte> bytes = Bytes(signal).Slice(first * _width, codes.Length * _width);
        if (_width == 2)
        {
            for (int i = 0; i < codes.Length; i++)
            {
                codes[i] = unchecked((short)(bytes[2 * i] | (bytes[(2 * i) + 1] << 8)));
            }
        }
        else
        {
            for (int i = 0; i < codes.Length; i++)
            {
                codes[i] = bytes[3 * i] | (bytes[(3 * i) + 1] << 8) | (unchecked((sbyte)bytes[(3 * i) + 2]) << 16);
            }
        }
    }

    /// <summary>The bytes of a signal in the loaded record.</summary>
    /// <param name="signal">Number of the signal.</param>
    public ReadOnlySpan<byte> Bytes(int signal) =>
        _record.AsSpan(_begins[signal], Header.Signals[signal].SamplesPerRecord * _width);

    /// <summary>When the loaded record begins, by its own annotation [ns from the start that the header gives].</summary>
    /// <exception cref="InputFileException">The record does not say it.</exception>
    public long RecordBeginNs()
    {
        if (FirstAnnotations >= 0)
        {
            var notes = new EdfTalReader(Bytes(FirstAnnotations));
            if (notes.TryNext(out EdfTal first) && !first.HasDuration && first.Texts is [EdfTal.TextEnd, ..])
            {
                return first.OnsetNs;
            }
        }

        throw Error(Record, "its annotations must begin with its own time, such as +12 and an empty text");
    }

    /// <inheritdoc/>
    public void Dispose() => _stream.Dispose();

    /// <summary>False for EDF, true for BDF, null for neither.</summary>
    internal static bool? Magic(ReadOnlySpan<byte> version) =>
        version[0] == 0xFF && version[1..].SequenceEqual("BIOSEMI"u8) ? true
        : version.SequenceEqual("0       "u8) ? false
        : null;

    /// <summary>An error about a record.</summary>
    internal InputFileException Error(long record, string message) => new(FileName, 0, 0, FormattableString.Invariant(
        $"record {record + 1} at byte {Header.HeaderBytes + (record * Header.RecordBytes)}: {message}."));

    /// <summary>An error about the file.</summary>
    internal InputFileException Error(string message) => new(FileName, 0, 0, message);

    private static int IndexOfFirstAnnotations(EdfHeader header)
    {
        for (int i = 0; i < header.Signals.Count && header.Continuity != EdfContinuity.Plain; i++)
        {
            if (header.Signals[i].IsAnnotation)
            {
                return i;
            }
        }

        return -1;
    }

    private long CountRecords()
    {
        long there = _stream.Length - Header.HeaderBytes;
        if (Header.RecordCount < 0)
        {
            LeftOverBytes = there % Header.RecordBytes;
            return there / Header.RecordBytes;
        }

        long told = Header.RecordCount * Header.RecordBytes;
        return told == there ? Header.RecordCount : throw Error(FormattableString.Invariant(
            $"byte {EdfFields.RecordCount.Begin}, {EdfFields.RecordCount.Name}: {Header.RecordCount} records of {Header.RecordBytes} bytes after the header need {told} bytes, and {there} are there; the file is {(there < told ? "cut off" : "too long")}, or its header is damaged."));
    }
}
