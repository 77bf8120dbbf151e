// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>What of a channel's format the standard has no field for, as text in the transducer field.</summary>
/// <remarks>
/// For example <c>infrared u24 step 0.03125 zero 7 delay_ns -3000000</c>: channel; unsigned (u) or signed (s) codes and their bits; unit per code in
/// the channel's unit; the code for physical zero; declared delay. Rate, polarity and device stand in fields of the standard.
/// </remarks>
internal static class EdfChannelText
{
    /// <summary>Characters of the field.</summary>
    public const int Width = 80;

    /// <summary>The text of a channel; may be longer than the field when its numbers are.</summary>
    public static string Of(ChannelFormat c) => string.Create(
        CultureInfo.InvariantCulture,
        $"{c.Name.Text()} {(c.IsSigned ? 's' : 'u')}{c.Bits} step {c.UnitPerCode:R} zero {c.ZeroCode} delay_ns {c.DeclaredDelayNs}");

    /// <summary>Reads it back.</summary>
    /// <param name="signal">The signal.</param>
    /// <param name="device">Name of the device.</param>
    /// <param name="rateHz">Rate of the signal [Hz].</param>
    /// <returns>The format; null when the text is none, or when the limits of the signal say something else.</returns>
    public static ChannelFormat? Parse(EdfSignal signal, string device, int rateHz)
    {
        string[] w = signal.Transducer.Split(' ');
        if (w.Length != 8 || w[2] != "step" || w[4] != "zero" || w[6] != "delay_ns" || w[1].Length < 2 || w[1][0] is not ('s' or 'u')
            || !ChannelNames.TryParse(w[0], out ChannelName name)
            || !int.TryParse(w[1].AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out int bits) || bits is < 4 or > 24
            || !double.TryParse(w[3], NumberStyles.Float, CultureInfo.InvariantCulture, out double step) || !(step > 0 && double.IsFinite(step))
            || !int.TryParse(w[5], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int zero)
            || !long.TryParse(w[7], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long delay))
        {
            return null;
        }

        // Another program may have scaled the samples anew and kept the text: then the limits are right and the text is not.
        double? told = signal.Gain * EdfDimensions.InUnits(name, signal.Dimension);
        if (told is not double gain || !(Math.Abs((Math.Abs(gain) / step) - 1) <= 2 * EdfScale.LargestError))
        {
            return null;
        }

        return new ChannelFormat
        {
            Name = name,
            Device = device,
            RateHz = rateHz,
            Bits = bits,
            IsSigned = w[1][0] == 's',
            UnitPerCode = step,
            ZeroCode = zero,
            Polarity = gain > 0 ? 1 : -1,
            DeclaredDelayNs = delay,
        };
    }
}
