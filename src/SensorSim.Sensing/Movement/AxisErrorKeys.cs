// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Movement;

/// <summary>Knobs of what each axis of the accelerometer does wrong, and of how the sensor sits on the body.</summary>
public static class AxisErrorKeys
{
    /// <summary>Offset of x, y and z.</summary>
    public static readonly IReadOnlyList<NumberKey> OffsetMg = [.. "xyz".Select(Offset)];

    /// <summary>Gain error of x, y and z.</summary>
    public static readonly IReadOnlyList<NumberKey> GainErrorPercent = [.. "xyz".Select(Gain)];

    /// <summary>Turn of the sensor about the body's x, y and z.</summary>
    public static readonly IReadOnlyList<NumberKey> TurnedDeg = [.. "xyz".Select(Turn)];

    /// <summary>All of them.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [.. OffsetMg, .. GainErrorPercent, .. TurnedDeg];

    private static NumberKey Offset(char axis) => new()
    {
        Name = $"accelerometer.offset_{axis}_mg",
        Unit = "mg",
        Meaning = $"What the {axis} axis shows without acceleration, in thousandths of g.",
        Source = "20 to 80 mg of either sign (common practice).",
        Minimum = -1000,
        Maximum = 1000,
        Default = 0,
    };

    private static NumberKey Gain(char axis) => new()
    {
        Name = $"accelerometer.gain_error_{axis}_percent",
        Unit = "%",
        Meaning = $"How much too much the {axis} axis shows of its acceleration, gravity included.",
        Source = "1 to 4 % of either sign (common practice).",
        Minimum = -20,
        Maximum = 20,
        Default = 0,
    };

    private static NumberKey Turn(char axis) => new()
    {
        Name = $"accelerometer.turned_{axis}_deg",
        Unit = "°",
        Meaning = $"Turn of the sensor on the body about the body's {axis} axis, by the right hand; x is done first, then y, then z.",
        Source = "Choice of this project; a few degrees when put on with care, any angle when not.",
        Minimum = -180,
        Maximum = 180,
        Default = 0,
    };
}
