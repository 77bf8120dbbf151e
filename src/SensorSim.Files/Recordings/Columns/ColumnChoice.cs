// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings.Columns;

/// <summary>A column that becomes a channel.</summary>
/// <param name="Place">Number of the column.</param>
/// <param name="Channel">The channel.</param>
/// <param name="Factor">Units of the channel in a unit of the column; null: the numbers are codes.</param>
/// <param name="PerCode">Value of one code [unit of the channel].</param>
/// <param name="IsInverted">Whether the numbers fall where the channel's value rises.</param>
internal sealed record ColumnChoice(int Place, ChannelName Channel, double? Factor, double PerCode, bool IsInverted)
{
    private const string Example = "--map \"COLUMN=ecg\"";

    /// <summary>Chooses the columns of a table, in the order of the channels.</summary>
    /// <exception cref="InputFileException">A column is not there, or its unit does not fit.</exception>
    public static IReadOnlyList<ColumnChoice> Of(CsvRows rows, CsvColumnsOptions options)
    {
        string[] plain = PlainNames(rows, options);
        List<(int Place, ChannelMapping Mapping)> chosen = options.Map.Count > 0
            ? [.. options.Map.Select(m => (Find(rows, plain, m.Label), m))]
            : Named(plain, options.Only);
        if (chosen.Count == 0)
        {
            throw rows.Error($"no column is called after {Wanted(options)}; the columns are {Names(rows)}; say which is which, such as {Example}.");
        }

        foreach (IGrouping<ChannelName, (int, ChannelMapping)> twice in chosen.GroupBy(c => c.Mapping.Channel).Where(g => g.Count() > 1))
        {
            throw rows.Error($"two columns would be {twice.Key.Text()}; the columns are {Names(rows)}; say which one, such as {Example}.");
        }

        return [.. chosen.OrderBy(c => c.Mapping.Channel).Select(c => Make(rows, plain, c.Place, c.Mapping, options))];
    }

    /// <summary>The names of the columns as they count; the one that says where a row stands is called so, whatever stands there.</summary>
    /// <exception cref="InputFileException">A column that was named is not there.</exception>
    public static string[] PlainNames(CsvRows rows, CsvColumnsOptions options)
    {
        string[] plain = [.. rows.Header.Select(ColumnUnits.Plain)];
        if (options.Place is (string label, string name))
        {
            int place = Find(rows, plain, label);
            plain = [.. plain.Select((own, i) => i == place ? name : CsvColumnsSource.IsPlace(own) ? "" : own)];
        }

        return plain;
    }

    private static ColumnChoice Make(CsvRows rows, string[] plain, int place, ChannelMapping mapping, CsvColumnsOptions options)
    {
        ChannelName channel = mapping.Channel;
        string? word = options.Unit ?? ColumnUnits.Parted(plain[place]).Word ?? (plain[place] is "code" or "codes" ? ColumnUnits.Counts : channel == ChannelName.Ecg ? "mv" : null);
        if (word is null)
        {
            throw rows.Error($"column {InputFiles.Quote(rows.Header[place])} does not say its unit; add --unit {string.Join(" or --unit ", ColumnUnits.Of(channel))}.");
        }

        bool isInverted = mapping.IsInverted != options.IsInverted;
        if (word == ColumnUnits.Counts)
        {
            return new ColumnChoice(place, channel, null, 1, isInverted);
        }

        double perCode = channel == ChannelName.Ecg && options.EcgMvPerCode is double own ? own : ColumnUnits.DefaultPerCode(channel);
        return ColumnUnits.Factor(word, channel) is double factor
            ? new ColumnChoice(place, channel, factor, perCode, isInverted)
            : throw rows.Error($"column {InputFiles.Quote(rows.Header[place])} in {word} cannot be {channel.Text()}, which has {string.Join(", ", ColumnUnits.Of(channel))}.");
    }

    private static List<(int Place, ChannelMapping Mapping)> Named(string[] plain, ChannelName? only)
    {
        List<(int Place, ChannelMapping Mapping)> all = ByName(plain);
        if (only is not ChannelName channel)
        {
            return all;
        }

        List<(int Place, ChannelMapping Mapping)> wanted = all.FindAll(c => c.Mapping.Channel == channel);
        int[] values = [.. Enumerable.Range(0, plain.Length).Where(i => !CsvColumnsSource.IsPlace(plain[i]))];
        return wanted.Count == 0 && values.Length == 1 ? [(values[0], new ChannelMapping(plain[values[0]], channel))] : wanted;
    }

    private static List<(int Place, ChannelMapping Mapping)> ByName(string[] plain)
    {
        var found = new List<(int Place, ChannelMapping Mapping)>();
        for (int i = 0; i < plain.Length; i++)
        {
            if (ChannelNames.TryParse(plain[i], out ChannelName name) || ChannelNames.TryParse(ColumnUnits.Parted(plain[i]).Stem, out name))
            {
                found.Add((i, new ChannelMapping(plain[i], name)));
            }
        }

        return found;
    }

    private static int Find(CsvRows rows, string[] plain, string label)
    {
        int place = rows.Header.ToList().FindIndex(h => string.Equals(h, label, StringComparison.Ordinal));
        place = place >= 0 ? place : Array.IndexOf(plain, ColumnUnits.Plain(label));
        return place >= 0 ? place : throw rows.Error($"there is no column {InputFiles.Quote(label)}; the columns are {Names(rows)}.");
    }

    private static string Wanted(CsvColumnsOptions options) =>
        options.Only is ChannelName channel ? $"the channel {channel.Text()}" : $"a channel ({string.Join(", ", ChannelNames.All)})";

    private static string Names(CsvRows rows) => string.Join(", ", rows.Header.Take(20).Select(h => InputFiles.Quote(h))) + (rows.Header.Count > 20 ? ", ..." : "");
}
