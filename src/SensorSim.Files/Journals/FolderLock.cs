// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Journals;

/// <summary>Holds a folder for one process; the end of the process, whatever ends it, sets the folder free.</summary>
/// <remarks>
/// The operating system locks a file in the folder. Disks of other machines that know no locks (some network disks) do not hold others off.
/// </remarks>
public sealed class FolderLock : IDisposable
{
    private static int s_attempts;

    private readonly FileStream _file;

    private FolderLock(FileStream file) => _file = file;

    /// <summary>Takes the folder; makes it when it is not there.</summary>
    /// <param name="folder">Path of the folder.</param>
    /// <param name="name">Name of the file that stands for the lock.</param>
    /// <returns>The lock; null when another process has it.</returns>
    /// <exception cref="IOException">The folder cannot be made or written.</exception>
    public static FolderLock? Take(string folder, string name)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        string path = Path.Combine(folder, name);
        while (true)
        {
            Directory.CreateDirectory(folder);
            FileStream file;
            try
            {
                file = Open(path);
            }
            catch (IOException e) when (IsTaken(e))
            {
                return null;
            }

            if (IsTheOneOnDisk(file))
            {
                return new FolderLock(file);
            }

            // The file was deleted by its last owner between our opening and locking: this lock would hold off nobody.
            file.Dispose();
        }
    }

    /// <summary>Sets the folder free and removes the file.</summary>
    public void Dispose()
    {
        if (OperatingSystem.IsWindows())
        {
            _file.Dispose();
            return;
        }

        // Deleted while it is still locked: nobody else can have it in between.
        try
        {
            File.Delete(_file.Name);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // An empty file stays behind; it locks nothing.
        }

        _file.Dispose();
    }

    // "Would block" of Linux and of macOS, "sharing violation" of Windows.
    private static bool IsTaken(IOException e) => e.HResult is 11 or 35 or unchecked((int)0x80070020);

    private static FileStream Open(string path) => new(
        path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, OperatingSystem.IsWindows() ? FileOptions.DeleteOnClose : FileOptions.None);

    // The name belongs to the file that we locked if what we do to the one shows in the other. Its content cannot be read without meeting the
    // lock, so it is the time of its last change that carries a number of this attempt: whole even seconds, which every file system keeps.
    private static bool IsTheOneOnDisk(FileStream file)
    {
        if (OperatingSystem.IsWindows())
        {
            return true;
        }

        int number = ((Environment.ProcessId & 0x3FFFF) << 8) | (Interlocked.Increment(ref s_attempts) & 0xFF);
        DateTime mark = new DateTime(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddSeconds(2.0 * number);
        File.SetLastWriteTimeUtc(file.SafeFileHandle, mark);
        return File.GetLastWriteTimeUtc(file.Name) == mark;
    }
}
