// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Recordings;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>Truth that stands in EDF+ or BDF+ files as annotations: rows that were written here, or beats that others marked.</summary>
/// <remarks>The files of a recording, one for each device, are read side by side in the order of time. Constant memory.</remarks>
public sealed class EdfTruth : IRowReader<TruthEvent>
{
    private readonly List<(IDisposable Reader, ReadRow Read)> _readers = [];
    private readonly List<TruthEvent?> _next = [];

    private EdfTruth()
    {
    }

    private delegate bool ReadRow(out TruthEvent row);

    /// <summary>Opens it.</summary>
    /// <param name="path">Path of a file, or of a folder whose EDF and BDF files belong together.</param>
    /// <returns>The truth; null when the files hold none.</returns>
    /// <exception cref="InputFileException">A file is not what it should be.</exception>
    public static EdfTruth? Open(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        string[] files = Directory.Exists(path) ? [.. RecordingKinds.EdfFiles(path)] : [path];
        return Open(files, static file => Own(file)) ?? Open(files, static file => Foreign(file));
    }

    /// <summary>Opens annotations of one file that have a text of their own for beats.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="label">Text of the annotations that are beats.</param>
    /// <returns>R peaks of no class; null when the file has no such annotation.</returns>
    /// <exception cref="InputFileException">The file is not what it should be.</exception>
    public static EdfTruth? Open(string path, string label)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        return Open([path], file => Foreign(file, label));
    }

    /// <inheritdoc/>
    public bool TryRead(out TruthEvent row)
    {
        int first = -1;
        for (int i = 0; i < _next.Count; i++)
        {
            if (_next[i] is TruthEvent waiting && (first < 0 || waiting.TimeNs < _next[first]!.Value.TimeNs))
            {
                first = i;
            }
        }

        row = first < 0 ? default : _next[first]!.Value;
        if (first >= 0)
        {
            _next[first] = _readers[first].Read(out TruthEvent next) ? next : null;
        }

        return first >= 0;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach ((IDisposable reader, _) in _readers)
        {
            reader.Dispose();
        }
    }

    private static EdfTruth? Open(string[] files, Func<string, (IDisposable, ReadRow)> open)
    {
        var truth = new EdfTruth();
        bool isAny = false;
        try
        {
            foreach (string file in files)
            {
                (IDisposable reader, ReadRow read) = open(file);
                truth._readers.Add((reader, read));
                truth._next.Add(read(out TruthEvent first) ? first : null);
                isAny |= truth._next[^1] is not null;
            }

            return isAny ? truth : null;
        }
        finally
        {
            if (!isAny)
            {
                truth.Dispose();
            }
        }
    }

    private static (IDisposable Reader, ReadRow Read) Own(string file)
    {
        var reader = new EdfTruthReader(file);
        return (reader, reader.TryRead);
    }

    private static (IDisposable Reader, ReadRow Read) Foreign(string file, string? label = null)
    {
        var reader = new EdfAnnotationReader(file);
        long beats = 0;
        return (reader, TryBeat);

        bool TryBeat(out TruthEvent row)
        {
            while (reader.TryRead(out EdfAnnotation annotation))
            {
                BeatClass beatClass = BeatClass.None;
                bool isBeat = label is null ? BeatAnnotations.TryClass(annotation.Text, out beatClass) : string.Equals(annotation.Text.Trim(), label, StringComparison.Ordinal);
                if (isBeat && annotation.OnsetNs >= 0)
                {
                    row = new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, annotation.OnsetNs, double.NaN, beats++, beatClass, TruthFlags.None);
                    return true;
                }
            }

            row = default;
            return false;
        }
    }
}
