// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Detectors.CLibraries;

namespace SensorSim.Cli.Output;

/// <summary>Where the command writes: results to the standard output, everything else to the standard error.</summary>
public sealed class Terminal
{
    private static readonly UTF8Encoding s_utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Creates a terminal on two streams.</summary>
    /// <param name="output">Takes results, UTF-8.</param>
    /// <param name="error">Takes messages.</param>
    /// <param name="isErrorTerminal">Whether messages are read by a person at a terminal.</param>
    public Terminal(Stream output, TextWriter error, bool isErrorTerminal)
    {
        OutStream = output;
        Out = new StreamWriter(output, s_utf8, 4096, leaveOpen: true) { AutoFlush = true, NewLine = "\n" };
        Error = error;
        IsErrorTerminal = isErrorTerminal;
    }

    /// <summary>Takes results as text.</summary>
    public TextWriter Out { get; }

    /// <summary>Takes results as bytes; <see cref="Out"/> writes to the same place at once.</summary>
    public Stream OutStream { get; }

    /// <summary>Takes messages.</summary>
    public TextWriter Error { get; }

    /// <summary>Whether messages are read by a person at a terminal.</summary>
    public bool IsErrorTerminal { get; }

    /// <summary>The terminal of the process.</summary>
    public static Terminal FromConsole()
    {
        var error = new StreamWriter(Console.OpenStandardError(), s_utf8) { AutoFlush = true, NewLine = "\n" };
        bool isTerminal = !Console.IsErrorRedirected && Environment.GetEnvironmentVariable("TERM") != "dumb";
        return new Terminal(new ResultStream(Console.OpenStandardOutput()), error, isTerminal);
    }

    /// <summary>Writes a message for the user on one line, whatever the names hold that it tells.</summary>
    /// <param name="message">The message.</param>
    public void Say(string message) =>
        Error.WriteLine($"sensorsim: {string.Create(message.Length, message, static (line, text) => Plain(text, line))}");

    private static void Plain(string text, Span<char> line)
    {
        for (int i = 0; i < line.Length; i++)
        {
            line[i] = char.IsControl(text[i]) ? '?' : text[i];
        }
    }
}
