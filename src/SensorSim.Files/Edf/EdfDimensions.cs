// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Units of the files and those of our channels.</summary>
internal static class EdfDimensions
{
    private static readonly (string Dimension, decimal PerUnit)[] s_voltage =
        [("mV", 1), ("uV", 1e3m), ("V", 1e-3m), ("nV", 1e6m), ("pV", 1e9m)];

    private static readonly (string Dimension, decimal PerUnit)[] s_current =
        [("nA", 1), ("uA", 1e-3m), ("pA", 1e3m), ("mA", 1e-6m), ("A", 1e-9m), ("fA", 1e6m)];

    private static readonly (string Dimension, decimal PerUnit)[] s_acceleration = [("g", 1), ("mg", 1e3m), ("ug", 1e6m)];

    // Standard gravity, 9.80665 m/s^2 by definition (SI Brochure, 9th edition).
    private const double StandardGravity = 9.80665;

    private static readonly (string Dimension, double InGravity)[] s_metric =
    [
        ("m/s^2", 1 / StandardGravity), ("m/s2", 1 / StandardGravity), ("mm/s^2", 1e-3 / StandardGravity), ("cm/s^2", 1e-2 / StandardGravity),
    ];

    /// <summary>The units that a channel may be written in, our own first, and how many of them make one of ours.</summary>
    public static IReadOnlyList<(string Dimension, decimal PerUnit)> Of(ChannelName channel) => channel switch
    {
        ChannelName.Ecg => s_voltage,
        >= ChannelName.AccelX => s_acceleration,
        _ => s_current,
    };

    /// <summary>Those of <see cref="Of"/> that are written: other programs know them. MNE 1.3, for one, takes a signal in nV for volts without a word.</summary>
    /// <param name="channel">The channel.</param>
    public static IReadOnlyList<(string Dimension, decimal PerUnit)> Written(ChannelName channel) =>
        [.. Of(channel).Where(d => d.Dimension is not ("nV" or "pV" or "fA" or "ug"))];

    /// <summary>What one of a file's unit is in the channel's own.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="dimension">Unit of the file.</param>
    /// <returns>The factor; null when the unit does not measure what the channel carries.</returns>
    public static double? InUnits(ChannelName channel, string dimension)
    {
        foreach ((string known, decimal perUnit) in Of(channel))
        {
            if (string.Equals(known, dimension, StringComparison.Ordinal))
            {
                return (double)(1 / perUnit);
            }
        }

        if (channel >= ChannelName.AccelX)
        {
            foreach ((string known, double inGravity) in s_metric)
            {
                if (string.Equals(known, dimension, StringComparison.Ordinal))
                {
                    return inGravity;
                }
            }
        }

        return null;
    }

    /// <summary>Whether a unit says nothing about what it measures; light is often recorded so.</summary>
    public static bool IsArbitrary(string dimension) =>
        dimension.Length == 0 || dimension is "-" or "%" || Array.Exists(
            ["au", "a.u.", "nu", "n.u.", "adu", "count", "counts", "code", "codes", "lsb"], known => string.Equals(known, dimension, StringComparison.OrdinalIgnoreCase));

    /// <summary>The units that are taken for a channel, for a message.</summary>
    public static string List(ChannelName channel) =>
        string.Join(", ", Of(channel).Select(d => d.Dimension).Concat(channel >= ChannelName.AccelX ? s_metric.Select(d => d.Dimension) : []));
}
