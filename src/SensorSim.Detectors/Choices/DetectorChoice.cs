// SPDX-License-Identifier: MIT
using SensorSim.Links.Lines;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Choices;

/// <summary>A detector that a user chose: which one, and what stands around it.</summary>
public sealed record DetectorChoice
{
    /// <summary>What reports call it; unique in a study.</summary>
    public required string Label { get; init; }

    /// <summary>What stands behind the contract.</summary>
    public DetectorAdapter Adapter { get; init; }

    /// <summary>Full path of the assembly or shared library, address of a board's link; empty for the project's own and for programs.</summary>
    public string Path { get; init; } = "";

    /// <summary>Program: its command, word by word; empty for all others.</summary>
    public IReadOnlyList<string> Command { get; init; } = [];

    /// <summary>Program: folder that it runs in, from which its path is looked for; empty: that of this process.</summary>
    public string Folder { get; init; } = "";

    /// <summary>Board at a serial port: rate of the port [baud].</summary>
    public int BaudRate { get; init; } = LinkOptions.UsualBaud;

    /// <summary>Full name of the class in the assembly; empty: the only one there is.</summary>
    public string ClassName { get; init; } = "";

    /// <summary>C library: loaded into this process instead of a child; faster, but its crash is the crash of everything.</summary>
    public bool IsInProcess { get; init; }

    /// <summary>Longest time that the detector may take for a block before it counts as hanging [s]; program, board: without any progress. Not for what runs in this process.</summary>
    public double HangS { get; init; } = 10;

    /// <summary>Constants that differ from their defaults, by name.</summary>
    public IReadOnlyDictionary<string, double> Constants { get; init; } = new Dictionary<string, double>();

    /// <summary>What the detector is told of sensor and wearer; null: nothing.</summary>
    public DetectorCalibration? Calibration { get; init; }

    /// <summary>Word of the control around it that makes settings requests; empty: none.</summary>
    public string Control { get; init; } = "";

    /// <summary>Whether its settings requests reach the sensor.</summary>
    public bool IsLoopClosed { get; init; }

    /// <summary>Closed loop: time from a request to its effect [ms].</summary>
    public int LatencyMs { get; init; } = 100;
}
