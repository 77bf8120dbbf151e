// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Rhythm;

/// <summary>Knobs of premature beats; they come on top of sinus rhythm.</summary>
public static class EctopyKeys
{
    /// <summary>Pattern of ventricular premature beats.</summary>
    public static readonly ChoiceKey VentricularPattern = new()
    {
        Name = "ectopy.ventricular_pattern",
        Meaning = "After which sinus beats a ventricular premature beat follows: none, at random, or every one, second or third one.",
        Source = "Terms of the trade.",
        IsLive = true,
        Choices = ["none", "random", "bigeminy", "trigeminy", "quadrigeminy"],
        Default = "none",
    };

    /// <summary>Share of ventricular premature beats.</summary>
    public static readonly NumberKey VentricularPercent = new()
    {
        Name = "ectopy.ventricular_percent",
        Unit = "%",
        Meaning = "For the random pattern: share of sinus beats that a ventricular premature beat or group follows.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 50,
        Default = 5,
    };

    /// <summary>Coupling interval of ventricular premature beats.</summary>
    public static readonly NumberKey VentricularCouplingPercent = new()
    {
        Name = "ectopy.ventricular_coupling_percent",
        Unit = "%",
        Meaning = "Time from the sinus beat to the ventricular premature beat in percent of the sinus interval.",
        Source = "60 +- 15 % of the sinus interval (Park et al., Korean Circ J 45:294, 2015).",
        IsLive = true,
        Minimum = 30,
        Maximum = 95,
        Default = 60,
    };

    /// <summary>Spread of the coupling interval.</summary>
    public static readonly NumberKey CouplingSpreadPercent = new()
    {
        Name = "ectopy.coupling_spread_percent",
        Unit = "%",
        Meaning = "Standard deviation of the coupling interval in percent of the sinus interval; the same for both kinds.",
        Source = "Choice of this project: coupling is fixed to some percent in one person.",
        IsLive = true,
        Minimum = 0,
        Maximum = 10,
        Default = 2,
    };

    /// <summary>Pause after a ventricular premature beat.</summary>
    public static readonly ChoiceKey VentricularPause = new()
    {
        Name = "ectopy.ventricular_pause",
        Meaning = "Whether the sinus beat after a ventricular premature beat is lost (compensatory: both intervals make two sinus intervals) or not (interpolated: they make one).",
        Source = "Textbook definitions (common practice).",
        IsLive = true,
        Choices = ["compensatory", "interpolated"],
        Default = "compensatory",
    };

    /// <summary>Beats in a ventricular group.</summary>
    public static readonly NumberKey VentricularGroup = new()
    {
        Name = "ectopy.ventricular_group_beats",
        Unit = "beats",
        Meaning = "Ventricular beats in a row: 1 single, 2 a couplet, 3 and more a run.",
        Source = "Terms of the trade.",
        IsLive = true,
        IsWhole = true,
        Minimum = 1,
        Maximum = 30,
        Default = 1,
    };

    /// <summary>Rate inside a ventricular group.</summary>
    public static readonly NumberKey GroupRateBpm = new()
    {
        Name = "ectopy.group_rate_bpm",
        Unit = "bpm",
        Meaning = "Rate inside a couplet or run.",
        Source = "Above 100 bpm three in a row are a run (common practice).",
        IsLive = true,
        Minimum = 100,
        Maximum = 250,
        Default = 150,
    };

    /// <summary>Pattern of atrial premature beats.</summary>
    public static readonly ChoiceKey AtrialPattern = new()
    {
        Name = "ectopy.atrial_pattern",
        Meaning = "After which sinus beats an atrial premature beat follows: none, at random, or every one, second or third one.",
        Source = "Terms of the trade.",
        IsLive = true,
        Choices = ["none", "random", "bigeminy", "trigeminy", "quadrigeminy"],
        Default = "none",
    };

    /// <summary>Share of atrial premature beats.</summary>
    public static readonly NumberKey AtrialPercent = new()
    {
        Name = "ectopy.atrial_percent",
        Unit = "%",
        Meaning = "For the random pattern: share of sinus beats that an atrial premature beat follows.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 50,
        Default = 5,
    };

    /// <summary>Coupling interval of atrial premature beats.</summary>
    public static readonly NumberKey AtrialCouplingPercent = new()
    {
        Name = "ectopy.atrial_coupling_percent",
        Unit = "%",
        Meaning = "Time from the sinus beat to the atrial premature beat in percent of the sinus interval.",
        Source = "Typically 60 to 80 % (common practice).",
        IsLive = true,
        Minimum = 40,
        Maximum = 95,
        Default = 70,
    };

    /// <summary>Interval after an atrial premature beat.</summary>
    public static readonly NumberKey AtrialResetPercent = new()
    {
        Name = "ectopy.atrial_reset_percent",
        Unit = "%",
        Meaning = "Time from the atrial premature beat to the next sinus beat, which it resets, in percent of the sinus interval.",
        Source = "Typically 105 to 120 % (common practice).",
        IsLive = true,
        Minimum = 90,
        Maximum = 150,
        Default = 110,
    };

    /// <summary>Every knob of this section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [VentricularPattern, VentricularPercent, VentricularCouplingPercent, CouplingSpreadPercent, VentricularPause, VentricularGroup, GroupRateBpm, AtrialPattern, AtrialPercent, AtrialCouplingPercent, AtrialResetPercent];
}
