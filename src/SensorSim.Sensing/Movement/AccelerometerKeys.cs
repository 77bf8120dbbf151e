// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Movement;

/// <summary>Knobs of the accelerometer.</summary>
public static class AccelerometerKeys
{
    /// <summary>Sampling rate.</summary>
    public static readonly NumberKey RateHz = new()
    {
        Name = "accelerometer.rate_hz",
        Unit = "Hz",
        Meaning = "Sampling rate of the three axes.",
        Source = "25 to 200 Hz (common practice).",
        IsWhole = true,
        Minimum = 10,
        Maximum = 1000,
        Default = 50,
    };

    /// <summary>Bits of the converter.</summary>
    public static readonly NumberKey Bits = new()
    {
        Name = "accelerometer.bits",
        Unit = "bit",
        Meaning = "Word length of the converter, two's complement.",
        Source = "12 to 16 bit (common practice).",
        IsWhole = true,
        Minimum = 8,
        Maximum = 20,
        Default = 14,
    };

    /// <summary>Range.</summary>
    public static readonly NumberKey RangeG = new()
    {
        Name = "accelerometer.range_g",
        Unit = "g",
        Meaning = "Largest acceleration of either sign.",
        Source = "2, 4, 8 or 16 g (common practice).",
        Minimum = 1,
        Maximum = 64,
        Default = 4,
    };

    /// <summary>Noise density.</summary>
    public static readonly NumberKey NoiseUgPerRthz = new()
    {
        Name = "accelerometer.noise_ug_per_rthz",
        Unit = "µg/√Hz",
        Meaning = "Density of the white noise of each axis.",
        Source = "25 to 300 µg/√Hz (design guides).",
        IsLive = true,
        Minimum = 0,
        Maximum = 10000,
        Default = 0,
    };

    /// <summary>Bandwidth.</summary>
    public static readonly NumberKey BandwidthHz = new()
    {
        Name = "accelerometer.bandwidth_hz",
        Unit = "Hz",
        Meaning = "Where the one-pole low-pass of each axis is 3 dB down; 0: none, and the noise reaches to half the sampling rate.",
        Source = "A quarter to half of the sampling rate (common practice).",
        Minimum = 0,
        Maximum = 500,
        Default = 0,
    };

    /// <summary>Every knob of the accelerometer.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [RateHz, Bits, RangeG, NoiseUgPerRthz, BandwidthHz, .. AxisErrorKeys.All];

    /// <summary>The knobs that an axis follows while it is made.</summary>
    internal static IReadOnlyList<NumberKey> Live { get; } = [.. All.OfType<NumberKey>().Where(k => k.IsLive)];
}
