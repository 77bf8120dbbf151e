// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Detectors.Boards;
using SensorSim.Links.Frames.Payloads;

namespace SensorSim.Cli.Output;

/// <summary>The board's log: each line to the standard error as it comes, and to a file when there is one.</summary>
internal sealed class BoardLog : IDisposable
{
    // A board that says the same a thousand times a second must not fill the screen.
    private const int MostShown = 200;

    private readonly Terminal _terminal;
    private readonly Action _beforeLine;
    private readonly StreamWriter? _file;

    /// <summary>Creates a log.</summary>
    /// <param name="terminal">Where lines appear.</param>
    /// <param name="file">Takes them too; null when there is no folder. Closed with the log.</param>
    /// <param name="beforeLine">Called before a line appears, to make room for it.</param>
    public BoardLog(Terminal terminal, Stream? file, Action beforeLine)
    {
        _terminal = terminal;
        _beforeLine = beforeLine;
        _file = file is null ? null : new StreamWriter(file, new UTF8Encoding(false)) { NewLine = "\n", AutoFlush = true };
    }

    /// <summary>Lines so far.</summary>
    public long Count { get; private set; }

    /// <summary>Takes a line.</summary>
    public void Take(BoardLogLine line)
    {
        Count++;
        string text = $"{Word(line.Level)}: {line.Text}";
        _file?.WriteLine(text);
        if (Count > MostShown)
        {
            return;
        }

        _beforeLine();
        _terminal.Say(Count < MostShown ? $"board: {text}" : string.Create(CultureInfo.InvariantCulture, $"board: {MostShown} lines were shown; further ones are counted only{(_file is null ? "" : " and go to board.log")}"));
    }

    /// <inheritdoc/>
    public void Dispose() => _file?.Dispose();

    private static string Word(LogLevel level) => level switch
    {
        LogLevel.Information => "information",
        LogLevel.Warning => "warning",
        _ => "fault",
    };
}
