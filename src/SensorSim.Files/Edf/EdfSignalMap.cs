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

    // Rank of a signal that measures something else than its channel.
    private const int Else = 4;

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
        var named = new List<(int Signal, ChannelName Channel, int Rank)>();
        for (int i = 0; i < header.Signals.Count; i++)
        {
            EdfSignal signal = header.Signals[i];
            if (!signal.IsAnnotation && NameOf(signal, options) is ChannelName name)
            {
                named.Add((i, name, Rank(signal.Dimension, name, options)));
            }
        }

        // Of several signals that are called after a channel the one whose unit fits best; one that measures something else is none.
        List<(int Signal, ChannelName Channel, int Rank)> fitting = named.FindAll(n => n.Rank < Else);
        List<(int Signal, ChannelName Channel, int Rank)> taken = [.. (fitting.Count > 0 ? fitting : named)
            .GroupBy(n => n.Channel).Select(g => g.MinBy(n => n.Rank)).OrderBy(n => n.Signal)];
        var mapped = taken.ConvertAll(t => new EdfMapped(t.Signal, Format(file, header.Signals[t.Signal], t.Channel, options, notes)));
        foreach ((int signal, ChannelName channel, int rank) in named.Except(taken))
        {
            string label = Quote(header.Signals[signal].Label);
            notes.Add(rank == Else
                ? $"{file.FileName}: signal {label} is measured in {Quote(header.Signals[signal].Dimension)}, which is no unit of {channel.Text()}; it is left out."
                : $"{file.FileName}: signal {label} would be {channel.Text()} too; {Quote(header.Signals[taken.Find(t => t.Channel == channel).Signal].Label)} is taken; to choose, say --map \"LABEL={channel.Text()}\".");
        }

        return mapped;
    }

    // The better, the lower. What is mapped by the user, or says nothing of its unit where one is needed, is refused with a sentence, not passed over.
    private static int Rank(string dimension, ChannelName name, EdfReadOptions options) =>
        EdfDimensions.InUnits(name, dimension) is not null ? 0
        : options.Unit is not null || options.Map.Count > 0 ? 1
        : name is >= ChannelName.Red and <= ChannelName.Dark ? dimension == "%" ? 3 : EdfDimensions.IsArbitrary(dimension) || EdfDimensions.InUnits(ChannelName.Ecg, dimension) is not null ? 2 : Else
        : EdfDimensions.IsArbitrary(dimension) ? 2 : Else;

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
        double zero = signal.ZeroCode;
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
            ZeroCode = (int)Math.Round(zero, MidpointRounding.ToEven),
            Polarity = gain > 0 != options.Inverted.Contains(name) ? 1 : -1,
        };
    }

    private static string Quote(string text) => InputFiles.Quote(text);
}
