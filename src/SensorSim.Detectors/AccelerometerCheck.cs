// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detection.Movement;
using SensorSim.Detection.Pipeline;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors;

/// <summary>Tells whether the library makes use of a stream's accelerometer: where it does not, no answer says so.</summary>
public static class AccelerometerCheck
{
    private static readonly ChannelName[] Axes = [ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ];

    /// <summary>What a user is to be told when the library leaves the acceleration of a stream unused.</summary>
    /// <param name="format">The stream's format.</param>
    /// <returns>A sentence without a full stop; null when there is nothing to tell.</returns>
    public static string? Notice(StreamFormat format) => Refusal(format) is string why
        ? $"the library does not use this accelerometer: {why}. It answers as without one, so nothing shuts its gates under movement"
        : null;

    /// <summary>Why the library leaves the acceleration of a stream unused.</summary>
    /// <param name="format">The stream's format.</param>
    /// <returns>The reason, without a full stop; null when it is used, or when there is none.</returns>
    public static string? Refusal(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        ChannelFormat[] axes = [.. format.Channels.Where(c => Axes.Contains(c.Name))];
        if (axes.Length == 0)
        {
            return null;
        }

        if (axes.Length < Axes.Length)
        {
            return FormattableString.Invariant($"it has {string.Join(" and ", axes.Select(a => a.Name.Text()))} only; three axes are needed");
        }

        if (axes.Any(a => a.RateHz != axes[0].RateHz))
        {
            return FormattableString.Invariant($"its axes have {string.Join(", ", axes.Select(a => a.RateHz))} Hz; they need one rate");
        }

        LibrarySetup setup = SetupOf.Stream(format);
        int weight = setup[ChannelRole.AccelX].CodesPerUnit256;
        if (setup[ChannelRole.AccelY].CodesPerUnit256 != weight || setup[ChannelRole.AccelZ].CodesPerUnit256 != weight)
        {
            return FormattableString.Invariant($"its axes have {string.Join(", ", axes.Select(a => a.UnitPerCode.ToString("G6", CultureInfo.InvariantCulture)))} g per code; they need one weight");
        }

        int codesPerG = weight >> 8;
        return MovementReference.IsAllowed(axes[0].RateHz, codesPerG) ? null
            : FormattableString.Invariant($"it has {axes[0].RateHz} Hz and {codesPerG} codes a g; from 12 to 1600 Hz and 16 to 524288 codes a g are needed");
    }
}
