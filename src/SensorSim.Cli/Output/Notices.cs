// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Checks;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Output;

/// <summary>Says on standard error what can be done as it was asked for, but hardly is what was meant.</summary>
internal static class Notices
{
    /// <summary>Says when the library leaves an accelerometer unused.</summary>
    /// <param name="terminal">Where to.</param>
    /// <param name="format">What the library is given.</param>
    public static void TellAccelerometer(Terminal terminal, StreamFormat format)
    {
        if (AccelerometerCheck.Notice(format) is string notice)
        {
            terminal.Say(notice);
        }
    }

    /// <summary>Says which keys of a scenario have no effect.</summary>
    /// <param name="terminal">Where to.</param>
    /// <param name="scenario">The scenario.</param>
    public static void TellIdle(Terminal terminal, Scenario scenario)
    {
        foreach (IdleKey idle in IdleKeys.Of(scenario))
        {
            terminal.Say(idle.Sentence);
        }
    }
}
