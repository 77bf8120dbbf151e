// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Reads EDF, EDF+, BDF and BDF+ files as a stream, a record at a time.</summary>
/// <remarks>
/// What <see cref="EdfRecordingWriter"/> wrote comes back as it was: codes, gaps, status words, format and end. Of other files the signals whose labels
/// name a channel are read, with samples of 16 or 24 bits as codes; records with gaps between them (EDF+D) give jumps of the index.
/// </remarks>
public sealed class EdfRecordingReader : ISampleStream, IDisposable
{
    private readonly EdfReaderFile[] _files;

    /// <summary>Opens a file, or a folder with the files of one recording.</summary>
    /// <param name="path">Path of a file, or of a folder whose .edf and .bdf files are the devices of one recording.</param>
    /// <param name="options">What the file does not say itself; null for nothing.</param>
    /// <exception cref="InputFileException">A file is missing or not what it should be, or no signal is a channel.</exception>
    public EdfRecordingReader(string path, EdfReadOptions? options = null)
        : this(EdfPaths.Of(path), options)
    {
    }

    /// <summary>Opens the files of one recording, one per device.</summary>
    /// <param name="paths">Paths of the files, at least one.</param>
    /// <param name="options">What the files do not say themselves; null for nothing.</param>
    /// <exception cref="InputFileException">A file is missing or not what it should be, or no signal is a channel.</exception>
    public EdfRecordingReader(IReadOnlyList<string> paths, EdfReadOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(paths);
        ArgumentOutOfRangeException.ThrowIfZero(paths.Count);
        var notes = new List<string>();
        _files = new EdfReaderFile[paths.Count];
        try
        {
            for (int i = 0; i < _files.Length; i++)
            {
                _files[i] = new EdfReaderFile(paths[i], options ?? new EdfReadOptions(), notes);
            }

            Format = EdfPaths.Join(_files, options ?? new EdfReadOptions());
            EndTick = _files.Max(f => f.Place(Format));
        }
        catch
        {
            Dispose();
            throw;
        }

        Notes = notes;
    }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick { get; }

    /// <summary>What the user should know of how the files were read, a sentence each.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>The headers of the files.</summary>
    public IReadOnlyList<EdfHeader> Headers => [.. _files.Select(f => f.Reader.Header)];

    /// <inheritdoc/>
    /// <exception cref="InputFileException">A record is not what it should be.</exception>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, EndTick);
        block.Begin(PositionTick, untilTick);
        foreach (EdfReaderFile file in _files)
        {
            file.Read(Format, block, untilTick);
        }

        PositionTick = untilTick;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (EdfReaderFile? file in _files)
        {
            file?.Dispose();
        }
    }
}
