// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Files.Edf;

/// <summary>One annotation of a file.</summary>
/// <param name="OnsetNs">Time from the first sample [ns].</param>
/// <param name="DurationNs">Duration [ns]; null when there is none.</param>
/// <param name="Text">What is said.</param>
public readonly record struct EdfAnnotation(long OnsetNs, long? DurationNs, string Text);

/// <summary>Reads the annotations of an EDF+ or BDF+ file in the order of the file, a record at a time; a plain file has none.</summary>
public sealed class EdfAnnotationReader : IDisposable
{
    private readonly EdfFileReader _file;
    private readonly Queue<EdfAnnotation> _found = new();
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
        while (_found.Count == 0)
        {
            if (!HasAnnotations || _record == _file.RecordCount)
            {
                annotation = default;
                return false;
            }

            _file.Load(_record++);
            for (int i = _file.FirstAnnotations; i < Header.Signals.Count; i++)
            {
                if (Header.Signals[i].IsAnnotation)
                {
                    Take(_file.Bytes(i));
                }
            }
        }

        annotation = _found.Dequeue();
        return true;
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private void Take(ReadOnlySpan<byte> bytes)
    {
        var reader = new EdfTalReader(bytes);
        while (reader.TryNext(out EdfTal tal))
        {
            ReadOnlySpan<byte> texts = tal.Texts;
            while (EdfTal.TryTakeText(ref texts, out ReadOnlySpan<byte> text))
            {
                // An empty text is the time of the record.
                if (!text.IsEmpty)
                {
                    _found.Enqueue(new EdfAnnotation(tal.OnsetNs - _firstNs, tal.HasDuration ? tal.DurationNs : null, Encoding.UTF8.GetString(text)));
                }
            }
        }

        if (reader.IsBroken)
        {
            throw _file.Error(_file.Record, "an annotation cannot be read; it must be a time such as +1.5, the byte 20, texts each ended by the byte 20, and a zero byte");
        }
    }
}
