// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Reading;

/// <summary>Reads a file of bounded size whole: a recording or an endless device given by mistake must not fill the memory.</summary>
internal static class SmallFile
{
    /// <summary>The bytes of a file; null and a clause that says why not.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="largestBytes">Largest size.</param>
    /// <param name="largest">That size in words.</param>
    /// <param name="missing">What to say when there is none.</param>
    /// <param name="report">Takes the clause, for example <c>is a folder</c>.</param>
    public static byte[]? Read(string path, int largestBytes, string largest, string missing, Action<string> report)
    {
        if (Directory.Exists(path))
        {
            report("is a folder");
            return null;
        }

        try
        {
            if (!SourceWatch.MayRead(path))
            {
                report("lies outside of the folder that everything must be read from");
                return null;
            }

            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            var bytes = new byte[largestBytes + 1];
            int count = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (count > largestBytes)
            {
                report($"is larger than {largest}");
                return null;
            }

            byte[] read = bytes[..count];
            SourceWatch.Tell(path, read);
            return read;
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or ArgumentException)
        {
            report(missing);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            report($"cannot be read: {TomlNames.FirstLine(e.Message)}");
            return null;
        }
    }

    /// <summary>The text in bytes; knows a byte order mark when it meets one.</summary>
    /// <param name="bytes">The bytes.</param>
    public static string Text(byte[] bytes)
    {
        using var reader = new StreamReader(new MemoryStream(bytes));
        return reader.ReadToEnd();
    }
}
