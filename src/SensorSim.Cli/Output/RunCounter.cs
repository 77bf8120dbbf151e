// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;

namespace SensorSim.Cli.Output;

/// <summary>A line on a terminal that counts runs, for whatever takes longer than two seconds.</summary>
internal sealed class RunCounter : IDisposable
{
    private const double QuietSeconds = 2;
    private const double IntervalSeconds = 0.2;

    private readonly Terminal _terminal;
    private readonly long _most;
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private double _shownAtSeconds = QuietSeconds - IntervalSeconds;
    private bool _isShown;

    /// <summary>Starts.</summary>
    /// <param name="terminal">Where the line appears; nowhere unless its messages go to a terminal.</param>
    /// <param name="most">Runs that there may be.</param>
    public RunCounter(Terminal terminal, long most)
    {
        _terminal = terminal;
        _most = most;
    }

    /// <summary>Tells the runs made.</summary>
    /// <param name="runs">How many.</param>
    public void Report(long runs)
    {
        double elapsed = _watch.Elapsed.TotalSeconds;
        if (!_terminal.IsErrorTerminal || elapsed < _shownAtSeconds + IntervalSeconds)
        {
            return;
        }

        _shownAtSeconds = elapsed;
        _isShown = true;
        _terminal.Error.Write(string.Create(CultureInfo.InvariantCulture, $"\r{runs} runs, up to {_most} and shrinking   "));
    }

    /// <summary>Removes the line; also when the search ends early.</summary>
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
