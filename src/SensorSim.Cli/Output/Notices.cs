// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Checks;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Output;

/// <summary>Says on standard error what can be done as it was asked for, but hardly is what was meant.</summary>
internal static class Notices
{
    /// <summary>When the library leaves an accelerometer unused: one sentence without a full stop, or none.</summary>
    /// <param name="format">What the library is given.</param>
    public static IReadOnlyList<string> OfAccelerometer(StreamFormat format) => AccelerometerCheck.Notice(format) is string notice ? [notice] : [];

    /// <summary>Which keys of a scenario have no effect, a sentence each without a full stop.</summary>
    /// <param name="scenario">The scenario.</param>
    public static IReadOnlyList<string> OfIdleKeys(Scenario scenario) => [.. IdleKeys.Of(scenario).Select(i => i.Sentence)];

    /// <summary>Says them, a line each.</summary>
    /// <param name="terminal">Where to.</param>
    /// <param name="notices">The sentences.</param>
    public static void Tell(Terminal terminal, IEnumerable<string> notices)
    {
        foreach (string notice in notices)
        {
            terminal.Say(notice);
        }
    }
}
