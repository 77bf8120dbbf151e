// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Marks;

/// <summary>What a mark of a detector or a row of truth says. One table for both; see <see cref="MarkKinds"/>.</summary>
public enum MarkKind
{
    /// <summary>Largest deviation from the level before the QRS complex, inside it.</summary>
    RPeak = 0,

    /// <summary>Start of the P wave: 2 % of its own peak.</summary>
    POnset = 1,

    /// <summary>Peak of the P wave.</summary>
    PPeak = 2,

    /// <summary>End of the P wave: 2 % of its own peak.</summary>
    PEnd = 3,

    /// <summary>Start of the QRS complex.</summary>
    QrsOnset = 4,

    /// <summary>End of the QRS complex.</summary>
    QrsEnd = 5,

    /// <summary>Start of the T wave: 2 % of its own peak.</summary>
    TOnset = 6,

    /// <summary>Peak of the T wave.</summary>
    TPeak = 7,

    /// <summary>End of the T wave: 2 % of its own peak.</summary>
    TEnd = 8,

    /// <summary>Minimum of the arterial pulse before its upstroke.</summary>
    PulseFootMinimum = 9,

    /// <summary>Where the tangent at the steepest point meets the horizontal through that minimum.</summary>
    PulseFootTangent = 10,

    /// <summary>Largest second derivative before the steepest point.</summary>
    PulseFootSecondDerivative = 11,

    /// <summary>Steepest point of the upstroke.</summary>
    SteepestPoint = 12,

    /// <summary>Maximum of the arterial pulse.</summary>
    SystolicPeak = 13,

    /// <summary>Local minimum after the systolic peak.</summary>
    DicroticNotch = 14,

    /// <summary>Local maximum after the notch.</summary>
    DiastolicPeak = 15,

    /// <summary>A beat without a pulse.</summary>
    NoPulse = 16,

    /// <summary>Pre-ejection period, from the R peak [ms].</summary>
    PepMs = 17,

    /// <summary>Pulse transit time [ms].</summary>
    PttMs = 18,

    /// <summary>Pulse arrival time of the beat, R peak to foot by tangents [ms].</summary>
    PatMs = 19,

    /// <summary>RR interval that ends at the beat [ms].</summary>
    RrMs = 20,

    /// <summary>Heart rate [bpm].</summary>
    HeartRateBpm = 21,

    /// <summary>Reported pulse arrival time [ms].</summary>
    ArrivalTimeMs = 22,

    /// <summary>Respiration rate [breaths per minute].</summary>
    RespirationRateBpm = 23,

    /// <summary>Both signals are steady from here on.</summary>
    GateOpen = 24,

    /// <summary>No reading from here on.</summary>
    GateShut = 25,

    /// <summary>Where the tangent at the steepest point after the T peak meets the level before the QRS.</summary>
    TEndTangent = 26,

    /// <summary>Middle of a pacing spike.</summary>
    PacingSpike = 27,

    /// <summary>Pre-ejection period, from the QRS onset [ms].</summary>
    PepFromQrsOnsetMs = 28,

    /// <summary>Systolic pressure [mmHg].</summary>
    SystolicMmhg = 29,

    /// <summary>Diastolic pressure [mmHg].</summary>
    DiastolicMmhg = 30,

    /// <summary>Mean pressure [mmHg].</summary>
    MeanMmhg = 31,

    /// <summary>Oxygen saturation of arterial blood [%].</summary>
    Spo2Percent = 32,

    /// <summary>Perfusion index of the channel [%].</summary>
    PerfusionIndexPercent = 33,

    /// <summary>Heart rate from whichever signals are steady [bpm].</summary>
    HeartRateFusedBpm = 34,

    /// <summary>Mean RR interval of the window [ms].</summary>
    RrMeanMs = 35,

    /// <summary>Standard deviation of the RR intervals of normal beats in the window [ms].</summary>
    SdnnMs = 36,

    /// <summary>Root mean square of successive differences of those intervals [ms].</summary>
    RmssdMs = 37,

    /// <summary>Median arrival time of the paired beats of the last 30 s [ms].</summary>
    ArrivalSpotMs = 38,

    /// <summary>Spread of those arrival times, as a standard deviation from the quartiles [ms].</summary>
    ArrivalSpreadMs = 39,

    /// <summary>The rhythm is irregular from here on.</summary>
    IrregularRhythm = 40,

    /// <summary>The rhythm is regular again from here on.</summary>
    RegularRhythm = 41,

    /// <summary>All signals that an arrival time needs are steady from here on.</summary>
    JointGateOpen = 42,

    /// <summary>No arrival time from here on.</summary>
    JointGateShut = 43,

    /// <summary>Steps of the wearer [1/min].</summary>
    CadencePerMin = 44,

    /// <summary>A gradual change of the pressure is certain: how far it lies from its calibration [mmHg].</summary>
    PressureTrendMmhg = 45,
}
