// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Links.Lines;

/// <summary>Holds a serial port for one link; the end of the process, whatever ends it, sets the port free.</summary>
/// <remarks>
/// On Linux a second open of a serial port may succeed, and then two readers share its bytes. So a file in the temporary folder, named after the
/// real path of the port, is locked by the operating system. What a dead process leaves is an empty file that locks nothing. Processes with
/// different temporary folders do not see each other, nor does a program that knows nothing of the file.
/// </remarks>
internal sealed class PortLock : IDisposable
{
    private const UnixFileMode Everyone = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.GroupWrite
        | UnixFileMode.OtherRead | UnixFileMode.OtherWrite;

    private readonly FileStream _file;

    private PortLock(FileStream file) => _file = file;

    /// <summary>Takes a port.</summary>
    /// <param name="realPath">Path of the port, links followed.</param>
    /// <param name="folder">Folder of the lock files; the temporary folder unless a test says otherwise.</param>
    /// <returns>The lock; null when somebody else has it.</returns>
    /// <exception cref="IOException">The file cannot be made or opened.</exception>
    /// <exception cref="UnauthorizedAccessException">The file cannot be made or opened.</exception>
    public static PortLock? Take(string realPath, string? folder = null)
    {
        string path = Path.Combine(folder ?? Path.GetTempPath(), FileName(realPath));
        try
        {
            return new PortLock(OpenOrCreate(path));
        }
        catch (IOException e) when (IsTaken(e))
        {
            return null;
        }
    }

    /// <summary>Sets the port free. The empty file stays: to delete it could take it from under another that has just opened it.</summary>
    public void Dispose() => _file.Dispose();

    // "Would block" of Linux and of macOS, "sharing violation" of Windows.
    private static bool IsTaken(IOException e) => e.HResult is 11 or 35 or unchecked((int)0x80070020);

    // First without the wish to create: in a folder that all may write, Linux refuses that wish for files of other users.
    private static FileStream OpenOrCreate(string path)
    {
        try
        {
            return Open(path, FileMode.Open);
        }
        catch (FileNotFoundException)
        {
            try
            {
                FileStream file = Open(path, FileMode.CreateNew);
                if (!OperatingSystem.IsWindows())
                {
                    // Whatever the mask of this user is: another user must be able to open it, or could never lock this port.
                    File.SetUnixFileMode(file.SafeFileHandle, Everyone);
                }

                return file;
            }
            catch (IOException) when (File.Exists(path))
            {
                // Another was faster.
                return Open(path, FileMode.Open);
            }
        }
    }

    private static FileStream Open(string path, FileMode mode) => new(path, mode, FileAccess.ReadWrite, FileShare.None, 1);

    private static string FileName(string realPath)
    {
        var name = new StringBuilder("sensorsim-port");
        foreach (char c in realPath)
        {
            name.Append(char.IsAsciiLetterOrDigit(c) || c == '.' ? c : '-');
        }

        return name.Append(".lock").ToString();
    }
}
