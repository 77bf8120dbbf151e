// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Detectors.Boards;

namespace SensorSim.Cli.Output;

/// <summary>A line of live counters of a replay, on a terminal only.</summary>
internal sealed class ReplayProgress : IDisposable
{
    private const double IntervalSeconds = 0.2;
    private const int LineWidth = 99;

    private readonly Terminal _terminal;
    private readonly double _ticksPerSecond;
    private readonly double? _totalS;
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private double _shownAtSeconds;
    private bool _isShown;

    /// <summary>Starts measuring.</summary>
    /// <param name="terminal">Where the line appears; nowhere unless its messages go to a terminal.</param>
    /// <param name="endTick">First tick that is not sent; <see cref="long.MaxValue"/> when there is no end.</param>
    /// <param name="ticksPerSecond">Ticks in a second of signal.</param>
    public ReplayProgress(Terminal terminal, long endTick, long ticksPerSecond)
    {
        _terminal = terminal;
        _ticksPerSecond = ticksPerSecond;
        _totalS = endTick == long.MaxValue ? null : endTick / _ticksPerSecond;
    }

    /// <summary>Tells the place reached.</summary>
    /// <param name="tick">First tick not yet sent.</param>
    /// <param name="board">The board; asked only when the line is shown.</param>
    public void Report(long tick, BoardDetector board)
    {
        double elapsed = _watch.Elapsed.TotalSeconds;
        if (!_terminal.IsErrorTerminal || elapsed < _shownAtSeconds + IntervalSeconds)
        {
            return;
        }

        _shownAtSeconds = elapsed;
        _isShown = true;
        _terminal.Error.Write("\r" + Line(tick / _ticksPerSecond, _totalS, elapsed, board.Counts, board.Latency).PadRight(LineWidth));
    }

    /// <summary>Removes the line, so that messages stand alone.</summary>
    public void Clear()
    {
        if (_isShown)
        {
            _isShown = false;
            _terminal.Error.Write("\r" + new string(' ', LineWidth) + "\r");
        }
    }

    /// <inheritdoc/>
    public void Dispose() => Clear();

    /// <summary>The text of the line.</summary>
    /// <param name="sentS">Sent so far [s].</param>
    /// <param name="totalS">To be sent [s]; null when there is no end.</param>
    /// <param name="elapsedS">Time since the start [s].</param>
    /// <param name="counts">What went over the line.</param>
    /// <param name="latency">How late answers were.</param>
    public static string Line(double sentS, double? totalS, double elapsedS, in BoardCounts counts, AnswerLatency latency)
    {
        string of = totalS is double total ? string.Create(CultureInfo.InvariantCulture, $" of {total:0}") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{sentS:0}{of} s sent, {sentS / Math.Max(elapsedS, 1e-9):0.00} x real time, {counts.AnswersReceived} answers, {latency.MissedDeadlines} late, {counts.FramesDamaged + counts.BoardDamaged} frames damaged, {counts.FramesMissing + counts.BoardMissing} missing");
    }
}
