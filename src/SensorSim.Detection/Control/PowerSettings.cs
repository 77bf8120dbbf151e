// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Control;

/// <summary>When the light may rest or sleep. Constant, no part of the state. Seconds are those of the accelerometer.</summary>
public record struct PowerSettings
{
    /// <summary>Largest spread of an axis within a still second [mg].</summary>
    public int StillMg { get; set; }

    /// <summary>Spread beyond which a second moves [mg], at least <see cref="StillMg"/>. Between the two nothing changes.</summary>
    public int MovingMg { get; set; }

    /// <summary>Still seconds in a row after which the light rests, 1 to 65,000.</summary>
    public int RestSeconds { get; set; }

    /// <summary>Decimation of the light at rest, 1 to 1000; 1: no difference.</summary>
    public int RestDecimation { get; set; }

    /// <summary>Still seconds in a row after which the light sleeps, at least <see cref="RestSeconds"/>, up to 65,000.</summary>
    public int SleepSeconds { get; set; }

    /// <summary>Decimation of the light asleep, 0 to 1000; 0: off.</summary>
    public int SleepDecimation { get; set; }

    /// <summary>Seconds of sleep before the light is put on to look, up to 65,000; 0: never.</summary>
    public int LookEverySeconds { get; set; }

    /// <summary>Seconds that a look lasts, up to 65,000.</summary>
    public int LookSeconds { get; set; }

    /// <summary>Off after ten still seconds, on with the first that is not: for a device that is put away.</summary>
    public static PowerSettings SwitchOff => new()
    {
        StillMg = 30,
        MovingMg = 30,
        RestSeconds = 10,
        RestDecimation = 1,
        SleepSeconds = 10,
        SleepDecimation = 0,
    };

    /// <summary>
    /// For a sleeper: off after a still minute, on for 40 s in five minutes (8 to 10 s to learn the signal and 30 s of it) and with movement.
    /// The rate is never lowered, because the library works on the base rate only.
    /// </summary>
    public static PowerSettings Sleeper => SwitchOff with
    {
        MovingMg = 45,
        RestSeconds = 60,
        SleepSeconds = 60,
        LookEverySeconds = 260,
        LookSeconds = 40,
    };
}
