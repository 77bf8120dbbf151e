// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Journals;

/// <summary>Holds a folder for one process; the end of the process, whatever ends it, sets the folder free.</summary>
/// <remarks>
/// The operating system locks a file in the folder. Disks of other machines that know no locks (some network disks) do not hold others off.
/// </remarks>
public sealed class FolderLock : IDisposable
{
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
            catch (IOException) when (File.Exists(path))
            {
                return null;
            }

            if (IsTheOneOnDisk(path))
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

    private static FileStream Open(string path) => new(
        path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, OperatingSystem.IsWindows() ? FileOptions.DeleteOnClose : FileOptions.None);

    // While we hold the lock, the same path cannot be opened a second time; if it can, it names another file.
    private static bool IsTheOneOnDisk(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            return true;
        }

        try
        {
            using FileStream second = new(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None, 1);
            return false;
        }
        catch (FileNotFoundException)
        {
            return false;
        }
        catch (IOException)
        {
            return true;
        }
    }
}
