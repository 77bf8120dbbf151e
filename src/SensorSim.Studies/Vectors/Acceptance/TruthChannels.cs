// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>Which signals a kind of answer is made of.</summary>
internal static class TruthChannels
{
    /// <summary>Whether it needs a beat of the ECG and a pulse.</summary>
    public static bool IsJoint(MarkKind kind) => kind is
        MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs or MarkKind.ArrivalSpreadMs or MarkKind.SystolicMmhg or MarkKind.DiastolicMmhg or MarkKind.MeanMmhg
        or MarkKind.PressureTrendMmhg or MarkKind.JointGateOpen or MarkKind.JointGateShut;

    /// <summary>Whether it is made of light alone.</summary>
    public static bool IsOfLight(MarkKind kind) => kind is
        (>= MarkKind.PulseFootMinimum and <= MarkKind.DiastolicPeak) or MarkKind.Spo2Percent or MarkKind.PerfusionIndexPercent;

    /// <summary>Whether it is made of the ECG alone.</summary>
    public static bool IsOfEcg(MarkKind kind) => kind is
        <= MarkKind.TEnd or MarkKind.TEndTangent or MarkKind.PacingSpike or MarkKind.RrMeanMs or MarkKind.SdnnMs or MarkKind.RmssdMs
        or MarkKind.IrregularRhythm or MarkKind.RegularRhythm;
}
