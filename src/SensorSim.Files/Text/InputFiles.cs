// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Files.Text;

/// <summary>Opens the user's files, and quotes what stands in them.</summary>
internal static class InputFiles
{
    private const int LongestQuote = 40;

    /// <summary>Opens a file for reading from its start.</summary>
    public static FileStream OpenRead(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        try
        {
            return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new InputFileException(path, 0, 0, "there is no such file; give the path of an existing one.", e);
        }
        catch (UnauthorizedAccessException e)
        {
            throw new InputFileException(path, 0, 0, "cannot be read; give the path of a file (not a folder) that you may read.", e);
        }
    }

    /// <summary>Text in quotation marks, cut when long, without control characters.</summary>
    public static string Quote(ReadOnlySpan<char> text)
    {
        var quoted = new StringBuilder("\"", LongestQuote + 5);
        foreach (char c in text[..Math.Min(text.Length, LongestQuote)])
        {
            quoted.Append(char.IsControl(c) ? '?' : c);
        }

        return quoted.Append(text.Length > LongestQuote ? "...\"" : "\"").ToString();
    }
}
