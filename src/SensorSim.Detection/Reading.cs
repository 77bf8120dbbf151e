// SPDX-License-Identifier: MIT
namespace SensorSim.Detection;

/// <summary>What a reading says.</summary>
public enum ReadingKind : byte
{
    /// <summary>Heart rate from the ECG [1/1000 bpm].</summary>
    HeartRateEcg,

    /// <summary>Heart rate from the pulse [1/1000 bpm].</summary>
    HeartRatePulse,

    /// <summary>Heart rate from whichever signals are steady [1/1000 bpm].</summary>
    HeartRateFused,

    /// <summary>Mean RR interval [1/1000 ms].</summary>
    RrMean,

    /// <summary>Standard deviation of the RR intervals of normal beats [1/1000 ms].</summary>
    Sdnn,

    /// <summary>Root mean square of successive differences of those [1/1000 ms].</summary>
    Rmssd,

    /// <summary>Arrival time of one beat, R peak to foot by tangents [1/1000 ms].</summary>
    Arrival,

    /// <summary>Median arrival time of the last 30 s [1/1000 ms].</summary>
    ArrivalSpot,

    /// <summary>Spread of those [1/1000 ms].</summary>
    ArrivalSpread,

    /// <summary>Oxygen saturation [1/1000 %].</summary>
    Spo2,

    /// <summary>Perfusion index [1/1000 %].</summary>
    PerfusionIndex,

    /// <summary>Breaths [1/1000 per minute].</summary>
    RespirationRate,

    /// <summary>Steps [1/1000 per minute].</summary>
    Cadence,

    /// <summary>Systolic pressure [1/1000 mmHg].</summary>
    Systolic,

    /// <summary>Diastolic pressure [1/1000 mmHg].</summary>
    Diastolic,

    /// <summary>Certain gradual change of the pressure from its calibration [1/1000 mmHg].</summary>
    PressureTrend,
}

/// <summary>One number that a device may show. Members stand in the order of their size, so that it takes 24 bytes.</summary>
public readonly record struct Reading
{
    /// <summary>Creates a reading.</summary>
    /// <param name="kind">What it says.</param>
    /// <param name="valueMilli">The number, in thousandths of the kind's unit.</param>
    /// <param name="quality">Trust, 0 to 255.</param>
    /// <param name="ticks256">Where the data end that it was made of [1/256 tick].</param>
    /// <param name="windowTicks256">How far those data reach back [1/256 tick]; 0 for one beat.</param>
    public Reading(ReadingKind kind, int valueMilli, byte quality, long ticks256, long windowTicks256)
    {
        Ticks256 = ticks256;
        WindowTicks256 = windowTicks256;
        ValueMilli = valueMilli;
        Kind = kind;
        Quality = quality;
    }

    /// <summary>Where the data end that it was made of [1/256 tick]: its age at a time t is t minus this.</summary>
    public long Ticks256 { get; init; }

    /// <summary>How far those data reach back [1/256 tick]; 0 for one beat.</summary>
    public long WindowTicks256 { get; init; }

    /// <summary>The number, in thousandths of the kind's unit.</summary>
    public int ValueMilli { get; init; }

    /// <summary>What it says.</summary>
    public ReadingKind Kind { get; init; }

    /// <summary>Trust, 0 to 255.</summary>
    public byte Quality { get; init; }
}
