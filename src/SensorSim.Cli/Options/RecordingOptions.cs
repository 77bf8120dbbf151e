// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Files.Recordings.Columns;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Options;

/// <summary>The options that say of a foreign file what it does not say itself.</summary>
internal sealed record RecordingOptions
{
    private const string MapRight = "--map must be NAME=CHANNEL, such as --map \"Lead II=ecg\"; a minus before the channel turns the numbers round: --map \"Pleth=-infrared\"";

    private readonly Option<string[]> _map = new("--map")
    {
        Description = "CSV, EDF or BDF file of others: which column or signal is which channel, such as \"Lead II=ecg\"; may be given several times; -CHANNEL turns the numbers round; \"COLUMN=time_s\" names a column of times",
        HelpName = "NAME=CHANNEL",
    };

    private readonly Option<long?> _rateHz = NumberOption.Whole("--rate-hz", "CSV file: sampling rate [Hz]; with a column of times they tell it", 1, 1_000_000);
    private readonly Option<string> _unit = new("--unit") { Description = "CSV, EDF or BDF file of others: what the numbers are, if the file does not say it; mv for the ECG of a CSV file unless given", HelpName = "UNIT" };
    private readonly Option<string> _channel = new("--channel") { Description = "CSV file: what the numbers measure; ecg unless given, or as the columns' names say", HelpName = "CHANNEL" };
    private readonly Option<double?> _scale = NumberOption.Real("--uv-per-code", "CSV file with an ECG in volts: size of one code [µV]; 1 unless given", 0.001, 10000);
    private readonly Option<bool> _inverted = new("--inverted") { Description = "CSV file: the numbers point the other way: swapped electrodes, or a pulse drawn upwards" };

    private RecordingOptions()
    {
        _unit.AcceptOnlyFromAmong([.. ColumnUnits.All]);
        _channel.AcceptOnlyFromAmong([.. ChannelNames.All]);
    }

    /// <summary>Creates the options.</summary>
    public static RecordingOptions Create() => new();

    /// <summary>Adds the options to a verb.</summary>
    /// <param name="command">The verb.</param>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _map, _rateHz, _unit, _channel, _scale, _inverted })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Reads the options.</summary>
    /// <param name="parsed">The command line.</param>
    /// <exception cref="UsageException">The options do not fit together.</exception>
    public RecordingChoice Read(ParseResult parsed)
    {
        string? channel = parsed.GetValue(_channel);
        string[] maps = parsed.GetValue(_map) ?? [];
        (string Label, string Name)[] places = [.. maps.Select(Place).OfType<(string, string)>()];
        if (places.Length > 1)
        {
            throw new UsageException($"\"{places[0].Label}\" and \"{places[1].Label}\" cannot both say where a row stands; name one column");
        }

        var choice = new RecordingChoice
        {
            Map = [.. maps.Where(m => Place(m) is null).Select(Mapping)],
            Place = places.Length == 0 ? null : places[0],
            RateHz = (int?)parsed.GetValue(_rateHz),
            Unit = parsed.GetValue(_unit),
            Channel = channel is not null && ChannelNames.TryParse(channel, out ChannelName name) ? name : null,
            MicrovoltsPerCode = parsed.GetValue(_scale),
            IsInverted = parsed.GetValue(_inverted),
        };
        return choice.Map.Count == 0 || choice.Channel is null
            ? choice
            : throw new UsageException("--map says which column is which channel; leave out --channel");
    }

    // Null when it names a channel.
    private static (string Label, string Name)? Place(string text)
    {
        int at = text.LastIndexOf('=');
        string name = text[(at + 1)..];
        return at > 0 && CsvColumnsSource.PlaceNames.Contains(name) ? (text[..at], name) : null;
    }

    private static ChannelMapping Mapping(string text)
    {
        // A label may hold an equals sign itself; a channel does not.
        int at = text.LastIndexOf('=');
        string channel = text[(at + 1)..];
        bool isInverted = channel.StartsWith('-');
        return at <= 0 ? throw new UsageException($"\"{text}\": {MapRight}")
            : ChannelNames.TryParse(isInverted ? channel[1..] : channel, out ChannelName name) ? new ChannelMapping(text[..at], name, isInverted)
            : throw new UsageException($"\"{text}\": {channel} is no channel; the channels are {string.Join(", ", ChannelNames.All)}, and columns of times {string.Join(", ", CsvColumnsSource.PlaceNames)}");
    }
}

/// <summary>What the command line says of a foreign file.</summary>
internal sealed record RecordingChoice
{
    /// <summary>Which column or signal is which channel.</summary>
    public IReadOnlyList<ChannelMapping> Map { get; init; } = [];

    /// <summary>Which column says where a row stands, and what it is.</summary>
    public (string Label, string Name)? Place { get; init; }

    /// <summary>Sampling rate [Hz].</summary>
    public int? RateHz { get; init; }

    /// <summary>Word for the unit.</summary>
    public string? Unit { get; init; }

    /// <summary>The channel.</summary>
    public ChannelName? Channel { get; init; }

    /// <summary>Size of one code of the ECG [µV].</summary>
    public double? MicrovoltsPerCode { get; init; }

    /// <summary>Whether the numbers point the other way.</summary>
    public bool IsInverted { get; init; }

    /// <summary>Whether anything is said.</summary>
    public bool IsAny => Map.Count > 0 || Unit is not null || SaysTable;

    /// <summary>Whether anything is said that only a table leaves open.</summary>
    public bool SaysTable => Place is not null || RateHz is not null || Channel is not null || MicrovoltsPerCode is not null || IsInverted;
}
