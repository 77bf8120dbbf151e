// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Files;

/// <summary>A file given by the user is not what it should be. The message is one line: where, what was found, what would be right.</summary>
public sealed class InputFileException : FormatException
{
    /// <summary>Creates the exception.</summary>
    /// <param name="file">The file as the user named it.</param>
    /// <param name="line">Line, counted from 1; 0 when the file as a whole is meant.</param>
    /// <param name="column">Character in the line, counted from 1; 0 when the line as a whole is meant.</param>
    /// <param name="message">What was found and what would be right; one line.</param>
    /// <param name="inner">The cause, when there is one.</param>
    public InputFileException(string file, long line, int column, string message, Exception? inner = null)
        : base(Compose(file, line, column, message), inner)
    {
        File = file;
        Line = line;
        Column = column;
    }

    /// <summary>The file as the user named it.</summary>
    public string File { get; }

    /// <summary>Line, counted from 1; 0 when the file as a whole is meant.</summary>
    public long Line { get; }

    /// <summary>Character in the line, counted from 1; 0 when the line as a whole is meant.</summary>
    public int Column { get; }

    private static string Compose(string file, long line, int column, string message)
    {
        string place = line == 0 ? ""
            : column == 0 ? string.Create(CultureInfo.InvariantCulture, $", line {line}")
            : string.Create(CultureInfo.InvariantCulture, $", line {line}, column {column}");
        return $"{file}{place}: {message}";
    }
}
