// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Output;

/// <summary>Says when the library leaves an accelerometer unused.</summary>
internal static class AccelerometerNotice
{
    /// <summary>Says it on standard error.</summary>
    /// <param name="terminal">Where to.</param>
    /// <param name="format">What the library is given.</param>
    public static void Tell(Terminal terminal, StreamFormat format)
    {
        if (AccelerometerCheck.Refusal(format) is string why)
        {
            terminal.Say($"the library does not use this accelerometer: {why}. It answers as without one, so nothing shuts its gates under movement");
        }
    }
}
