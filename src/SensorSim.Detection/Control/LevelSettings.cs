// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Control;

/// <summary>Where the light is kept. Constant, no part of the state. Percentages are of the codes above that of no light.</summary>
/// <remarks>
/// Nothing here can hunt. A level outside of the band is led to the target; what does not come from the LED makes a step fall
/// short, never overshoot. Gain goes up only with room light of at most <see cref="QuietPercent"/>, which then doubles to less than
/// <see cref="BrightPercent"/>, where it goes down, and while every other LED has room to halve twice.
/// </remarks>
public record struct LevelSettings
{
    /// <summary>Usual LED current at the start [µA].</summary>
    public const int UsualStartMicroamp = 10_000;

    /// <summary>Usual smallest LED current [µA].</summary>
    public const int UsualLeastMicroamp = 500;

    /// <summary>Usual largest LED current [µA].</summary>
    public const int UsualMostMicroamp = 100_000;

    /// <summary>Usual lower end of the band [%].</summary>
    public const int UsualLowPercent = 35;

    /// <summary>Usual upper end of the band [%].</summary>
    public const int UsualHighPercent = 65;

    /// <summary>LED current at the start [µA].</summary>
    public int StartMicroamp { get; set; }

    /// <summary>Smallest current that is asked for [µA], at least 1.</summary>
    public int LeastMicroamp { get; set; }

    /// <summary>Largest current that is asked for [µA], up to 1,000,000.</summary>
    public int MostMicroamp { get; set; }

    /// <summary>Smallest gain that is asked for [1/1000], at most 1000; the start is 1000.</summary>
    public int LeastGainMilli { get; set; }

    /// <summary>Largest gain that is asked for [1/1000], 1000 to 32,000; with both at 1000 no gain is asked for at all.</summary>
    public int MostGainMilli { get; set; }

    /// <summary>Lower end of the band of the level [%].</summary>
    public int LowPercent { get; set; }

    /// <summary>Upper end of the band [%].</summary>
    public int HighPercent { get; set; }

    /// <summary>Where a level outside of the band is led [%].</summary>
    public int TargetPercent { get; set; }

    /// <summary>Room light above this lowers the gain [%], so that more of the range is left for the LED.</summary>
    public int BrightPercent { get; set; }

    /// <summary>Room light up to this lets the gain rise [%]; below half of <see cref="BrightPercent"/>.</summary>
    public int QuietPercent { get; set; }

    /// <summary>Seconds in a row that ask for more gain before it rises, up to 254.</summary>
    public int QuietSeconds { get; set; }

    /// <summary>Room light above this moves the band up by as much [%], so that the LED keeps a share of its own.</summary>
    public int SharedPercent { get; set; }

    /// <summary>The most by which the band moves up [%]; with <see cref="HighPercent"/> it stays below the rail.</summary>
    public int MostRaisePercent { get; set; }

    /// <summary>Seconds that a request may take to show, 1 to 80; then it counts as refused and may be made again.</summary>
    public int PatienceSeconds { get; set; }

    /// <summary>LED current only.</summary>
    public static LevelSettings Current => new()
    {
        StartMicroamp = UsualStartMicroamp,
        LeastMicroamp = UsualLeastMicroamp,
        MostMicroamp = UsualMostMicroamp,
        LeastGainMilli = 1_000,
        MostGainMilli = 1_000,
        LowPercent = UsualLowPercent,
        HighPercent = UsualHighPercent,
        TargetPercent = 50,
        BrightPercent = 25,
        QuietPercent = 10,
        QuietSeconds = 30,
        SharedPercent = 30,
        MostRaisePercent = 25,
        PatienceSeconds = 10,
    };

    /// <summary>LED current, and gain where that does not reach.</summary>
    public static LevelSettings CurrentAndGain => Current with { LeastGainMilli = 250, MostGainMilli = 8_000 };
}
