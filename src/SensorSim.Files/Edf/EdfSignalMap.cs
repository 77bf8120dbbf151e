// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings.Columns;
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>A signal of a file, and the channel that it is.</summary>
/// <param name="Signal">Number of the signal.</param>
/// <param name="Channel">Format of the channel.</param>
internal sealed record EdfMapped(int Signal, ChannelFormat Channel);

/// <summary>Finds the channels of a file: of our own by their text, of others by label and unit.</summary>
internal static class EdfSignalMap
{
    private const int LongestList = 20;

    /// <summary>The channels of one of our own files.</summary>
    /// <returns>The channels; null when the file is somebody else's, or was changed since.</returns>
    public static IReadOnlyList<EdfMapped>? Own(EdfHeader header)
    {
        string[] recording = header.Recording.Split(' ');
        if (header.Continuity != EdfContinuity.Continuous || header.RecordDurationS != 1 || recording.Length != 5
            || recording[4].AsSpan().IndexOfAny(",\"\r\n") >= 0)
        {
            return null;
        }

        var mapped = new List<EdfMapped>();
        for (int i = 0; i < header.Signals.Count; i++)
        {
            EdfSignal signal = header.Signals[i];
            if (signal.IsAnnotation)
            {
                continue;
            }

            if (signal.SamplesPerRecord > EdfRates.HighestHz
                || EdfChannelText.Parse(signal, recording[4], signal.SamplesPerRecord) is not ChannelFormat channel
                || mapped.Exists(m => m.Channel.Name == channel.Name))
            {
                return null;
            }

            mapped.Add(new EdfMapped(i, channel));
        }

        return mapped.Count == 0 ? null : mapped;
    }

    /// <summary>The channels of a file of somebody else.</summary>
    /// <exception cref="InputFileException">No signal is a channel, or one that was named cannot be.</exception>
    public static IReadOnlyList<EdfMapped> Foreign(EdfFileReader file, EdfReadOptions options, List<string> notes)
    {
        EdfHeader header = file.Header;
        var mapped = new List<EdfMapped>();
        for (int i = 0; i < header.Signals.Count; i++)
        {
            EdfSignal signal = header.Signals[i];
            if (signal.IsAnnotation || NameOf(signal, options) is not ChannelName name)
            {
                continue;
            }

            if (mapped.Exists(m => m.Channel.Name == name))
            {
                notes.Add($"{file.FileName}: signal {Quote(signal.Label)} would be {name.Text()} too; the first such signal is taken.");
                continue;
            }

            mapped.Add(new EdfMapped(i, Format(file, signal, name, options, notes)));
        }

        return mapped;
    }

    /// <summary>The labels of ordinary signals, for a message.</summary>
    public static string Labels(EdfHeader header)
    {
        string[] labels = [.. header.Signals.Where(s => !s.IsAnnotation).Select(s => Quote(s.Label))];
        string shown = string.Join(", ", labels.Take(LongestList));
        return labels.Length == 0 ? "none" : labels.Length <= LongestList ? shown : shown + ", ...";
    }

    private static ChannelName? NameOf(EdfSignal signal, EdfReadOptions options)
    {
        if (options.Map.Count == 0)
        {
            return EdfLabels.ChannelOf(signal.Label, signal.Dimension);
        }

        foreach ((string label, ChannelName name) in options.Map)
        {
            if (string.Equals(label.Trim(), signal.Label, StringComparison.OrdinalIgnoreCase))
            {
                return name;
            }
        }

        return null;
    }

    private static ChannelFormat Format(EdfFileReader file, EdfSignal signal, ChannelName name, EdfReadOptions options, List<string> notes)
    {
        int rate = EdfRates.Whole(file.Header, signal) ?? throw file.Error(FormattableString.Invariant(
            $"signal {Quote(signal.Label)} has {signal.SamplesPerRecord} samples in {file.Header.RecordDurationS} s, {EdfRates.Hz(file.Header, signal):0.######} Hz; only whole rates from 1 to {EdfRates.HighestHz} Hz are read as {name.Text()}."));
        double? factor = EdfDimensions.InUnits(name, signal.Dimension) ?? (options.Unit is string unitWord ? ColumnUnits.Factor(unitWord, name) : null);
        if (factor is null && name is >= ChannelName.Red and <= ChannelName.Dark && (EdfDimensions.IsArbitrary(signal.Dimension) || EdfDimensions.InUnits(ChannelName.Ecg, signal.Dimension) is not null))
        {
            factor = 1;
            notes.Add($"{file.FileName}: signal {Quote(signal.Label)} is measured in {Quote(signal.Dimension)}, which is no current; one of it is taken for 1 nA.");
        }

        if (factor is not double perUnit)
        {
            throw file.Error($"signal {Quote(signal.Label)} is measured in {Quote(signal.Dimension)}; {name.Text()} needs one of {EdfDimensions.List(name)}; say what it is, such as --unit {ColumnUnits.Of(name).First()}.");
        }

        double gain = signal.Gain;
        double zero = signal.DigitalMinimum - ((double)signal.PhysicalMinimum / gain);
        double unit = Math.Abs(gain) * perUnit;
        if (!(Math.Abs(zero) <= int.MaxValue) || !(unit > 0 && double.IsFinite(unit)))
        {
            throw file.Error(FormattableString.Invariant(
                $"signal {Quote(signal.Label)} goes from {signal.PhysicalMinimum} to {signal.PhysicalMaximum} {signal.Dimension} over samples {signal.DigitalMinimum} to {signal.DigitalMaximum}; that is no scale to read {name.Text()} with."));
        }

        return new ChannelFormat
        {
            Name = name,
            Device = "recording",
            RateHz = rate,
            Bits = 8 * file.Header.BytesPerSample,
            IsSigned = true,
            UnitPerCode = unit,
            ZeroCode = (int)Math.Round(zero),
            Polarity = gain > 0 != options.Inverted.Contains(name) ? 1 : -1,
        };
    }

    private static string Quote(string text) => InputFiles.Quote(text);
}
