// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Cli.Output;

/// <summary>A line of progress of a sweep on a terminal.</summary>
/// <param name="terminal">Where the line appears; nowhere unless its messages go to a terminal.</param>
internal sealed class SweepProgressLine(Terminal terminal) : IDisposable
{
    private const double QuietSeconds = 1;
    private const double IntervalSeconds = 0.2;
    private const int LineWidth = 79;

    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private double _shownAtSeconds = QuietSeconds - IntervalSeconds;
    private bool _isShown;

    /// <summary>Tells the place reached.</summary>
    public void Report(SweepProgress progress)
    {
        double elapsed = _watch.Elapsed.TotalSeconds;
        if (!terminal.IsErrorTerminal || elapsed < _shownAtSeconds + IntervalSeconds)
        {
            return;
        }

        _shownAtSeconds = elapsed;
        _isShown = true;
        terminal.Error.Write("\r" + Line(progress, elapsed).PadRight(LineWidth));
    }

    /// <summary>Removes the line, so that messages stand alone; also when the sweep ends early.</summary>
    public void Dispose() => Clear();

    /// <summary>Removes the line.</summary>
    public void Clear()
    {
        if (_isShown)
        {
            _isShown = false;
            terminal.Error.Write("\r" + new string(' ', LineWidth) + "\r");
        }
    }

    /// <summary>The text of the line.</summary>
    /// <param name="progress">How far the sweep is; at least one run made.</param>
    /// <param name="elapsedS">Time since its start [s].</param>
    public static string Line(SweepProgress progress, double elapsedS)
    {
        double perSecond = progress.Made / elapsedS;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{progress.Made} of {progress.ToMake} runs, {perSecond:0.#} runs/s, {progress.SignalS / elapsedS:0} x real time, {(progress.ToMake - progress.Made) / perSecond:0} s left");
    }
}
