// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.StudyFiles;

/// <summary>What one <c>[[detector]]</c> says; paths as they stand in the file.</summary>
public sealed record StudyDetector
{
    /// <summary>Label, unique in the study.</summary>
    public required string Label { get; init; }

    /// <summary>Word of the adapter.</summary>
    public string Adapter { get; init; } = DetectorKeys.Library;

    /// <summary>Path of the assembly or C library; empty for the project's own.</summary>
    public string File { get; init; } = "";

    /// <summary>Program and what it is told; empty for all but programs.</summary>
    public IReadOnlyList<string> Command { get; init; } = [];

    /// <summary>Name of the class; empty when not given.</summary>
    public string ClassName { get; init; } = "";

    /// <summary>Whether a C library is loaded into this process.</summary>
    public bool IsInProcess { get; init; }

    /// <summary>Longest time for a block [s].</summary>
    public double HangS { get; init; } = DetectorKeys.HangS.Default;

    /// <summary>Path of the calibration; empty: none.</summary>
    public string Calibration { get; init; } = "";

    /// <summary>Word of the control; empty: none. Whether there is such a control is for who knows the detectors.</summary>
    public string Control { get; init; } = "";

    /// <summary>Whether the loop is closed.</summary>
    public bool IsLoopClosed { get; init; }

    /// <summary>Time from a request to its effect [ms].</summary>
    public int LatencyMs { get; init; } = (int)DetectorKeys.LatencyMs.Default;

    /// <summary>Constants by their full names (<c>detector.…</c>), in order of name.</summary>
    public IReadOnlyDictionary<string, double> Constants { get; init; } = new SortedDictionary<string, double>(StringComparer.Ordinal);
}
