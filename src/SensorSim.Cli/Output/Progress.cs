// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;

namespace SensorSim.Cli.Output;

/// <summary>A line of progress on a terminal, for whatever takes longer than two seconds.</summary>
internal sealed class Progress : IDisposable
{
    private const double QuietSeconds = 2;
    private const double IntervalSeconds = 0.2;
    private const int BarWidth = 30;

    private readonly Terminal _terminal;
    private readonly double _totalSeconds;
    private readonly double _ticksPerSecond;
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private double _shownAtSeconds = QuietSeconds - IntervalSeconds;
    private bool _isShown;

    /// <summary>Starts measuring.</summary>
    /// <param name="terminal">Where the line appears; nowhere unless its messages go to a terminal.</param>
    /// <param name="totalTicks">Ticks in all.</param>
    /// <param name="ticksPerSecond">Ticks in a second of signal.</param>
    public Progress(Terminal terminal, long totalTicks, long ticksPerSecond)
    {
        _terminal = terminal;
        _ticksPerSecond = ticksPerSecond;
        _totalSeconds = totalTicks / _ticksPerSecond;
    }

    /// <summary>Tells the place reached.</summary>
    public void Report(long ticks)
    {
        double elapsed = _watch.Elapsed.TotalSeconds;
        if (!_terminal.IsErrorTerminal || elapsed < _shownAtSeconds + IntervalSeconds)
        {
            return;
        }

        _shownAtSeconds = elapsed;
        _isShown = true;
        double done = ticks / _ticksPerSecond;
        double share = done / _totalSeconds;
        int filled = (int)(share * BarWidth);
        string bar = new string('#', filled) + new string('.', BarWidth - filled);
        double left = (elapsed / Math.Max(share, 1e-9)) - elapsed;
        _terminal.Error.Write(string.Create(
            CultureInfo.InvariantCulture, $"\r[{bar}] {100 * share:0} %, {done / elapsed:0} x real time, {left:0} s left   "));
    }

    /// <summary>Removes the line, so that messages stand alone; also when the run ends early.</summary>
    public void Dispose() => Clear();

    /// <summary>Removes the line.</summary>
    public void Clear()
    {
        if (_isShown)
        {
            _isShown = false;
            _terminal.Error.Write("\r" + new string(' ', 79) + "\r");
        }
    }
}
