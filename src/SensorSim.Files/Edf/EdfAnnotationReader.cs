// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Files.Edf;

/// <summary>One annotation of a file.</summary>
/// <param name="OnsetNs">Time from the first sample [ns].</param>
/// <param name="DurationNs">Duration [ns]; null when there is none.</param>
/// <param name="Text">What is said.</param>
public readonly record struct EdfAnnotation(long OnsetNs, long? DurationNs, string Text);

/// <summary>One annotation as it lies in the record at hand; its text is valid until the next one is read.</summary>
/// <param name="onsetNs">Time from the first sample [ns].</param>
/// <param name="durationNs">Duration [ns]; null when there is none.</param>
/// <param name="text">What is said, UTF-8.</param>
internal readonly ref struct EdfNote(long onsetNs, long? durationNs, ReadOnlySpan<byte> text)
{
    public long OnsetNs { get; } = onsetNs;

    public long? DurationNs { get; } = durationNs;

    public ReadOnlySpan<byte> Text { get; } = text;
}

/// <summary>Reads the annotations of an EDF+ or BDF+ file in the order of the file, a record at a time; a plain file has none.</summary>
public sealed class EdfAnnotationReader : IDisposable
{
    private readonly EdfFileReader _file;

    // Where the texts of the record at hand lie: kept as they are, because most readers want few of them as strings.
    private readonly Queue<(long OnsetNs, long? DurationNs, int Signal, int Begin, int Length)> _found = new();
    private readonly long _firstNs;
    private long _record;

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or it is not what it should be.</exception>
    public EdfAnnotationReader(string path)
    {
        _file = new EdfFileReader(path);
        try
        {
            if (HasAnnotations && _file.RecordCount > 0)
            {
                _file.Load(0);
                _firstNs = _file.RecordBeginNs();
            }
        }
        catch
        {
            _file.Dispose();
            throw;
        }
    }

    /// <summary>Whether the file can hold annotations.</summary>
    public bool HasAnnotations => _file.FirstAnnotations >= 0;

    /// <summary>What the header says.</summary>
    public EdfHeader Header => _file.Header;

    /// <summary>Reads the next annotation.</summary>
    /// <param name="annotation">Receives it.</param>
    /// <returns>False when there is none any more.</returns>
    /// <exception cref="InputFileException">The annotations of a record are not what they should be.</exception>
    public bool TryRead(out EdfAnnotation annotation)
    {
        bool isThere = TryReadNote(out EdfNote note);
        annotation = isThere ? new EdfAnnotation(note.OnsetNs, note.DurationNs, Encoding.UTF8.GetString(note.Text)) : default;
        return isThere;
    }

    /// <summary>Reads the next annotation where it lies; takes nothing from the heap.</summary>
    /// <param name="note">Receives it.</param>
    /// <returns>False when there is none any more.</returns>
    /// <exception cref="InputFileException">The annotations of a record are not what they should be.</exception>
    internal bool TryReadNote(out EdfNote note)
    {
        while (_found.Count == 0)
        {
            if (!HasAnnotations || _record == _file.RecordCount)
            {
                note = default;
                return false;
            }

            _file.Load(_record++);
            for (int i = _file.FirstAnnotations; i < Header.Signals.Count; i++)
            {
                if (Header.Signals[i].IsAnnotation)
                {
                    Take(i);
                }
            }
        }

        (long onset, long? duration, int signal, int begin, int length) = _found.Dequeue();
        note = new EdfNote(onset, duration, _file.Bytes(signal).Slice(begin, length));
        return true;
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private void Take(int signal)
    {
        ReadOnlySpan<byte> bytes = _file.Bytes(signal);
        var reader = new EdfTalReader(bytes);
        while (reader.TryNext(out EdfTal tal))
        {
            ReadOnlySpan<byte> texts = tal.Texts;
            while (EdfTal.TryTakeText(ref texts, out ReadOnlySpan<byte> text))
            {
                // An empty text is the time of the record.
                if (!text.IsEmpty && bytes.Overlaps(text, out int begin))
                {
                    _found.Enqueue((tal.OnsetNs - _firstNs, tal.HasDuration ? tal.DurationNs : null, signal, begin, text.Length));
                }
            }
        }

        if (reader.IsBroken)
        {
            throw _file.Error(_file.Record, "an annotation cannot be read; it must be a time such as +1.5, the byte 20, texts each ended by the byte 20, and a zero byte");
        }
    }
}
