// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Journals;

/// <summary>A file to which records are only ever added, and which is good after any interruption.</summary>
public static class Journal
{
    /// <summary>Begins a journal; it appears with its whole header or not at all.</summary>
    /// <param name="path">Path of the file; there is none yet.</param>
    /// <param name="header">What the owner wants to find again.</param>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public static JournalWriter Create(string path, ReadOnlySpan<byte> header)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(header.Length, JournalFormat.LongestBytes);
        byte[] head = JournalFormat.Head(header);
        string temporary = path + ".partial";
        using (var stream = new FileStream(temporary, FileMode.Create, FileAccess.Write, FileShare.None, 0))
        {
            stream.Write(head);
            stream.Flush(flushToDisk: true);
        }

        File.Move(temporary, path);
        return Writer(path, Open(path, FileAccess.ReadWrite), head.Length);
    }

    /// <summary>Opens a journal to go on with it; a torn end is cut off.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="check">Looks at the header, and throws when this journal is not the right one: then nothing is changed.</param>
    /// <param name="take">Takes the records that are there.</param>
    /// <exception cref="InputFileException">The file is no journal, is damaged, or is of another version.</exception>
    /// <exception cref="IOException">The file cannot be read or written.</exception>
    public static JournalWriter GoOn(string path, Action<byte[]> check, JournalRecord take)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(check);
        long end = Read(path, check, take);
        return Writer(path, Open(path, FileAccess.ReadWrite), end);
    }

    /// <summary>Reads a journal and changes nothing.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="check">Looks at the header, and throws when this journal is not the right one.</param>
    /// <param name="take">Takes the records.</param>
    /// <returns>Where the last whole record ends.</returns>
    /// <exception cref="InputFileException">The file is no journal, is damaged, or is of another version.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static long Read(string path, Action<byte[]> check, JournalRecord take)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(check);
        using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, 1 << 16, FileOptions.SequentialScan);
        check(JournalReader.ReadHeader(stream, path));
        return JournalReader.ReadRecords(stream, take);
    }

    // Without a buffer: what is added is the operating system's at once.
    private static FileStream Open(string path, FileAccess access) => new(path, FileMode.Open, access, FileShare.Read, 0);

    private static JournalWriter Writer(string path, FileStream stream, long end)
    {
        try
        {
            return new JournalWriter(stream, path, end, () => stream.Flush(flushToDisk: true));
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }
}
