// SPDX-License-Identifier: MIT
namespace SensorSim.Files.VectorSets;

/// <summary>Compares bytes that are made with those of a file, as they come, and keeps the surroundings of the first difference.</summary>
/// <remarks>The made bytes are written to it. Memory does not grow with the length; once it is closed nothing is kept but the surroundings.</remarks>
public sealed class ByteComparison : ForwardStream
{
    private const int Around = 4096;
    private readonly List<byte> _window = [];
    private FileStream? _file;
    private byte[] _theirs = new byte[1 << 14];
    private byte[] _before = new byte[Around];
    private long _made;
    private long _newlines;
    private int _beforeCount;
    private long _windowBegin;

    /// <summary>Opens the file.</summary>
    /// <param name="path">Its path; null when there is none to compare with.</param>
    /// <exception cref="InputFileException">It cannot be read.</exception>
    public ByteComparison(string? path) => _file = path is null ? null : Text.InputFiles.OpenRead(path);

    /// <summary>Where the first difference lies, counted from 0; −1: there is none so far. It may be the end of the shorter one.</summary>
    public long DifferenceAt { get; private set; } = -1;

    /// <summary>Line of the difference in what is made, counted from 1.</summary>
    public long Line => _newlines + 1;

    /// <summary>Where the kept bytes begin: at most 4 KiB before the difference.</summary>
    public long WindowBegin => _windowBegin;

    /// <summary>The made bytes about the difference.</summary>
    public IReadOnlyList<byte> Window => _window;

    /// <inheritdoc/>
    protected override void Take(ReadOnlySpan<byte> bytes)
    {
        ReadOnlySpan<byte> made = bytes;
        while (!made.IsEmpty && DifferenceAt < 0 && _file is not null)
        {
            int length = Math.Min(made.Length, _theirs.Length);
            int got = _file.ReadAtLeast(_theirs.AsSpan(0, length), length, throwOnEndOfStream: false);
            int same = made[..length].CommonPrefixLength(_theirs.AsSpan(0, got));
            Pass(made[..same]);
            if (same < length)
            {
                BeginWindow();
            }

            made = made[same..];
        }

        if (DifferenceAt >= 0)
        {
            foreach (byte b in made[..Math.Min(made.Length, Math.Max(0, (2 * Around) - _window.Count))])
            {
                _window.Add(b);
            }
        }
    }

    /// <inheritdoc/>
    protected override void Finish()
    {
        // What the file has beyond is a difference too.
        if (_file is not null && DifferenceAt < 0 && _file.Length != _made)
        {
            BeginWindow();
        }

        _file?.Dispose();
        _file = null;
        _theirs = [];
        _before = [];
    }

    private void BeginWindow()
    {
        DifferenceAt = _made;
        _windowBegin = _made - _beforeCount;
        _window.AddRange(_before.AsSpan(0, _beforeCount).ToArray());
    }

    private void Pass(ReadOnlySpan<byte> same)
    {
        _made += same.Length;
        _newlines += same.Count((byte)'\n');
        if (same.Length >= Around)
        {
            same[^Around..].CopyTo(_before);
            _beforeCount = Around;
            return;
        }

        int keep = Math.Min(_beforeCount, Around - same.Length);
        Buffer.BlockCopy(_before, _beforeCount - keep, _before, 0, keep);
        same.CopyTo(_before.AsSpan(keep));
        _beforeCount = keep + same.Length;
    }
}
