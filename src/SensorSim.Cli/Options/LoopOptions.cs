// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Detectors.Control;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Options;

/// <summary>How a loop is closed.</summary>
/// <param name="Control">Word of the control around the detector; empty: the detector asks itself.</param>
/// <param name="LatencyMs">Latency [ms].</param>
internal sealed record LoopChoice(string Control, int LatencyMs);

/// <summary>The options that close the loop from the detector to the sensor.</summary>
internal sealed record LoopOptions
{
    private const int LongestLatencyMs = 60_000;

    /// <summary>Closes the loop.</summary>
    public required Option<bool> ClosedLoop { get; init; }

    /// <summary>The control around the detector.</summary>
    public required Option<string?> Control { get; init; }

    /// <summary>Latency.</summary>
    public required Option<long?> LatencyMs { get; init; }

    /// <summary>Creates the options.</summary>
    public static LoopOptions Create()
    {
        var control = new Option<string?>("--control") { Description = "What asks for settings in the closed loop", HelpName = "CONTROL" };
        control.AcceptOnlyFromAmong([.. Controls.All]);
        return new LoopOptions
        {
            ClosedLoop = new Option<bool>("--closed-loop") { Description = "Let the detector change the sensor's settings; the library needs --control" },
            Control = control,
            LatencyMs = NumberOption.Whole(
                "--latency-ms", "Closed loop: time from a request to its effect [ms]; 100 unless given", ControlLoop.ShortestLatencyMs, LongestLatencyMs),
        };
    }

    /// <summary>Reads the options; null when the loop stays open.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="mayAsk">Whether the detector may ask for settings by itself.</param>
    /// <exception cref="UsageException">The options do not fit together.</exception>
    public LoopChoice? Read(ParseResult parsed, bool mayAsk)
    {
        string? control = parsed.GetValue(Control);
        long? latency = parsed.GetValue(LatencyMs);
        if (!parsed.GetValue(ClosedLoop))
        {
            return control is null && latency is null
                ? null
                : throw new UsageException("--control and --latency-ms act in a closed loop only; add --closed-loop");
        }

        return control is null && !mayAsk
            ? throw new UsageException($"--closed-loop needs something that asks for settings, which the library does not; add --control {string.Join(" or --control ", Controls.All)}")
            : new LoopChoice(control ?? "", (int)(latency ?? ControlLoop.ShortestLatencyMs));
    }
}
