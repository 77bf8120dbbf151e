// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Marks;

/// <summary>One row of truth: what the body did, in body time. No detector ever sees one.</summary>
/// <param name="Channel">The signal it shows in.</param>
/// <param name="Kind">What it is.</param>
/// <param name="TimeNs">Body time [ns] from the start of the scenario.</param>
/// <param name="Value">Value in the kind's unit; NaN when the kind has none.</param>
/// <param name="BeatId">The beat it belongs to; −1 when there is none.</param>
/// <param name="Label">Class of the beat.</param>
/// <param name="Flags">How scoring may use it.</param>
public readonly record struct TruthEvent(
    ChannelName Channel, MarkKind Kind, long TimeNs, double Value, long BeatId, BeatClass Label, TruthFlags Flags);

/// <summary>Class of a beat. The text form is the name in snake_case.</summary>
public enum BeatClass
{
    /// <summary>No class stated.</summary>
    None = 0,

    /// <summary>Conducted normally.</summary>
    Normal = 1,

    /// <summary>Wide complex (ventricular, paced, or blocked bundle), as far as the source tells.</summary>
    Wide = 2,

    /// <summary>Premature, from the ventricle.</summary>
    VentricularPremature = 3,

    /// <summary>Premature, from the atrium.</summary>
    AtrialPremature = 4,

    /// <summary>Conducted out of atrial fibrillation or flutter.</summary>
    AtrialArrhythmia = 5,

    /// <summary>One of three or more ventricular beats in a row above 100 bpm.</summary>
    VentricularRun = 6,

    /// <summary>Escape beat of the junction: narrow, without its own P.</summary>
    JunctionalEscape = 7,

    /// <summary>Escape beat of the ventricle: wide.</summary>
    VentricularEscape = 8,

    /// <summary>Paced in the ventricle.</summary>
    Paced = 9,

    /// <summary>A P wave without a beat: not conducted.</summary>
    Blocked = 10,
}

/// <summary>How scoring may use a row of truth.</summary>
[Flags]
public enum TruthFlags
{
    /// <summary>Scored in every way.</summary>
    None = 0,

    /// <summary>Matched, but its timing is not scored: two peaks of opposite sign are nearly equal.</summary>
    Ambiguous = 1,

    /// <summary>May be found or missed: a detection that matches it is neither right nor wrong.</summary>
    Optional = 2,

    /// <summary>The edge of a wave lies under another wave.</summary>
    Overlapped = 4,
}
