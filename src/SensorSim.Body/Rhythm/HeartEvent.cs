// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Rhythm;

/// <summary>What the rhythm decides about one event: a beat, or a P wave that is not conducted.</summary>
internal struct HeartEvent
{
    /// <summary>Centre of the R wave [s]; of a P wave that is not conducted: where R would have been.</summary>
    public double Seconds;

    /// <summary>Class; <see cref="BeatClass.Blocked"/> for a P wave that is not conducted.</summary>
    public BeatClass Class;

    /// <summary>Whether a P wave of its own precedes it.</summary>
    public bool HasP;

    /// <summary>What is added to the PR interval of the knob [s].</summary>
    public double ExtraPrSeconds;

    /// <summary>PR interval in place of the knob's [s]; NaN: the knob's.</summary>
    public double PrSeconds;

    /// <summary>RR interval at which the heart would fill as usual [s]; NaN: filling does not matter.</summary>
    public double UsualRrSeconds;

    /// <summary>Factor of the pulse beside that of filling.</summary>
    public double PulseShare;

    /// <summary>Whether a pacing spike starts the P wave.</summary>
    public bool HasAtrialSpike;

    /// <summary>Whether a pacing spike starts the QRS complex.</summary>
    public bool HasVentricularSpike;

    /// <summary>A beat that is conducted as usual.</summary>
    /// <param name="seconds">Centre of the R wave [s].</param>
    /// <param name="label">Class.</param>
    /// <param name="hasP">Whether a P wave of its own precedes it.</param>
    /// <param name="usualRrSeconds">RR interval at which the heart would fill as usual [s].</param>
    public static HeartEvent Beat(double seconds, BeatClass label, bool hasP, double usualRrSeconds) => new()
    {
        Seconds = seconds,
        Class = label,
        HasP = hasP,
        PrSeconds = double.NaN,
        UsualRrSeconds = usualRrSeconds,
        PulseShare = 1,
    };

    /// <summary>A P wave that is not conducted.</summary>
    /// <param name="seconds">Where the R wave would have been [s].</param>
    public static HeartEvent BlockedP(double seconds) => new()
    {
        Seconds = seconds,
        Class = BeatClass.Blocked,
        HasP = true,
        PrSeconds = double.NaN,
        UsualRrSeconds = double.NaN,
    };
}
