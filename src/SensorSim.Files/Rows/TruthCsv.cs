// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Rows;

/// <summary>Columns of <c>truth.csv</c>: body time, one row per event or per value of a beat.</summary>
internal static class TruthCsv
{
    public const string Header = "channel,kind,time_ns,value,beat_id,label";
    public const string Ambiguous = "ambiguous";
    public const string Optional = "optional";
    public const string Overlapped = "overlapped";

    /// <summary>Text forms of <see cref="Signals.Marks.BeatClass"/>, by number.</summary>
    public static readonly string[] Classes = 
    [
        "none", "normal", "wide", "ventricular_premature", "atrial_premature", "atrial_arrhythmia", "ventricular_run",
        "junctional_escape", "ventricular_escape", "paced", "blocked",
    ];

    public static readonly string[] Columns = Header.Split(',');
}
