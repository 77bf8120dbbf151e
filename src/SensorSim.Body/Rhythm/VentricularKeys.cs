// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Rhythm;

/// <summary>Knobs of ventricular tachycardia and of pacing.</summary>
public static class VentricularKeys
{
    /// <summary>Rate of ventricular tachycardia.</summary>
    public static readonly NumberKey TachycardiaRateBpm = new()
    {
        Name = "ventricular_tachycardia.rate_bpm",
        Unit = "bpm",
        Meaning = "Rate of ventricular tachycardia.",
        Source = "140 to 220 bpm (common practice).",
        IsLive = true,
        Minimum = 100,
        Maximum = 250,
        Default = 170,
    };

    /// <summary>Pulse of ventricular tachycardia.</summary>
    public static readonly NumberKey TachycardiaPulsePercent = new()
    {
        Name = "ventricular_tachycardia.pulse_percent",
        Unit = "%",
        Meaning = "Height of the pulses of ventricular tachycardia in percent of a normal one; below 10 it is pulseless.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 40,
    };

    /// <summary>What is paced.</summary>
    public static readonly ChoiceKey PacingMode = new()
    {
        Name = "pacing.mode",
        Meaning = "ventricular: every beat follows a ventricular spike, no P waves; dual: an atrial spike with P, then a ventricular spike.",
        Source = "Terms of the trade.",
        Choices = ["ventricular", "dual"],
        Default = "ventricular",
    };

    /// <summary>Pacing rate.</summary>
    public static readonly NumberKey PacingRateBpm = new()
    {
        Name = "pacing.rate_bpm",
        Unit = "bpm",
        Meaning = "Rate of the pacemaker; its intervals do not vary.",
        Source = "Usual lower rate 60 bpm (common practice).",
        IsLive = true,
        Minimum = 30,
        Maximum = 180,
        Default = 60,
    };

    /// <summary>Delay from atrial to ventricular spike.</summary>
    public static readonly NumberKey AvDelayMs = new()
    {
        Name = "pacing.av_delay_ms",
        Unit = "ms",
        Meaning = "Delay from the start of the paced P wave to the ventricular spike, in dual mode.",
        Source = "120 to 200 ms (common practice).",
        Minimum = 80,
        Maximum = 300,
        Default = 160,
    };

    /// <summary>Every knob of this section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [TachycardiaRateBpm, TachycardiaPulsePercent, PacingMode, PacingRateBpm, AvDelayMs];
}
