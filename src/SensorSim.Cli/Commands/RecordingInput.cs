// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Edf;
using SensorSim.Files.Recordings;
using SensorSim.Files.Recordings.Columns;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Replays;

namespace SensorSim.Cli.Commands;

/// <summary>Opens a recording in any form that is known.</summary>
internal static class RecordingInput
{
    /// <summary>What can be given, for messages.</summary>
    public const string Right = "give a folder written by record, an EDF or BDF file, or a CSV file";

    /// <summary>Opens it as a stream.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="choice">What the command line says of it.</param>
    /// <exception cref="UsageException">There is no recording, or options do not fit it.</exception>
    public static ISampleStream Open(string path, RecordingChoice choice)
    {
        switch (RecordingKinds.Of(path))
        {
            case RecordingKind.Folder when choice.IsAny:
                throw new UsageException("--map, --rate-hz, --unit, --channel, --uv-per-code and --inverted belong to a CSV file; a recording says these itself in channels.csv");
            case RecordingKind.Folder:
                return new RecordingFolderReader(path);
            case RecordingKind.Edf or RecordingKind.EdfFolder when choice.SaysTable:
                throw new UsageException("--rate-hz, --channel, --uv-per-code, --inverted and a column of times belong to a CSV file; an EDF or BDF file says these itself, and --map says which signal is which channel");
            case RecordingKind.Edf or RecordingKind.EdfFolder when choice.Unit == ColumnUnits.Counts:
                throw new UsageException("--unit counts belongs to a CSV file; an EDF or BDF file says how many of its unit a code is, and --unit which unit that is, where the file does not: for example --unit uv");
            case RecordingKind.Edf or RecordingKind.EdfFolder:
                return new EdfRecordingReader(path, EdfOptions(choice));
            case RecordingKind.None when Directory.Exists(path):
                throw new UsageException($"{path}: there is no channels.csv in this folder, and no EDF or BDF file; {Right}");
            case RecordingKind.None when !File.Exists(path):
                throw new UsageException($"{path}: there is no such file or folder; {Right}");
            default:
                return Table(path, choice);
        }
    }

    /// <summary>Opens it with its truth, and what its acquisition did, as far as they stand in it or beside it.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="choice">What the command line says of it.</param>
    /// <exception cref="UsageException">There is no recording, or options do not fit it.</exception>
    public static RecordedRun OpenWithTruth(string path, RecordingChoice choice) =>
        new(Open(path, choice), FolderOf(path), RecordingKinds.Of(path) is RecordingKind.Edf or RecordingKind.EdfFolder ? path : null);

    /// <summary>Says what the user should know of how a recording is read.</summary>
    /// <param name="terminal">Where it is said.</param>
    /// <param name="stream">The recording.</param>
    public static void Tell(Terminal terminal, ISampleStream stream)
    {
        foreach (string note in (stream as EdfRecordingReader)?.Notes ?? (stream as CsvColumnsSource)?.Notes ?? [])
        {
            terminal.Say(note);
        }
    }

    /// <summary>The folder in which the files stand that belong to a recording.</summary>
    /// <param name="path">Path of the recording.</param>
    public static string FolderOf(string path) => Directory.Exists(path) ? path : Path.GetDirectoryName(path) ?? "";

    /// <summary>Whether a path leads to a recording, not to a scenario.</summary>
    /// <param name="path">The path.</param>
    public static bool IsRecording(string path) => RecordingKinds.Of(path) != RecordingKind.None;

    private static EdfReadOptions EdfOptions(RecordingChoice choice) => new()
    {
        Map = choice.Map.ToDictionary(m => m.Label, m => m.Channel, StringComparer.OrdinalIgnoreCase),
        Unit = choice.Unit,
        Inverted = choice.Map.Where(m => m.IsInverted).Select(m => m.Channel).ToHashSet(),
    };

    private static ISampleStream Table(string path, RecordingChoice choice)
    {
        if (RecordingKinds.WrittenOnly(path) is string form)
        {
            throw new UsageException($"{path}: this is {form}, which is written here but not read; {Right}");
        }

        IReadOnlyList<string> columns = CsvColumnsSource.ColumnsOf(path);
        if (!choice.IsAny && RecordingKinds.IsChannelOfFolder(columns))
        {
            throw new UsageException($"{path}: this is one channel of a recording; give its folder, in which channels.csv is");
        }

        bool isPlain = columns.Count == 1 && choice.Map.Count == 0 && choice.Place is null && choice.Unit is null or "mv" or ColumnUnits.Counts;
        if (choice.Unit == ColumnUnits.Counts && choice.MicrovoltsPerCode is not null)
        {
            throw new UsageException("--uv-per-code is for --unit mv; counts are taken as they are");
        }

        if (!isPlain)
        {
            return new CsvColumnsSource(path, new CsvColumnsOptions
            {
                Map = choice.Map,
                Place = choice.Place,
                Only = choice.Channel ?? (columns.Count == 1 ? ChannelName.Ecg : null),
                RateHz = choice.RateHz,
                Unit = choice.Unit,
                EcgMvPerCode = choice.MicrovoltsPerCode * 1e-3,
                IsInverted = choice.IsInverted,
            });
        }

        ChannelName channel = choice.Channel ?? ChannelName.Ecg;
        if (choice.RateHz is null)
        {
            throw new UsageException($"{path}: a CSV file with one column does not say its sampling rate; add --rate-hz, for example --rate-hz 360");
        }

        if (choice.Unit != ColumnUnits.Counts && channel != ChannelName.Ecg)
        {
            throw new UsageException($"--unit mv is for the ecg channel; for {channel.Text()} use --unit {string.Join(" or ", ColumnUnits.Of(channel))}");
        }

        return new ColumnCsvSource(path, new ColumnCsvOptions
        {
            Channel = channel,
            RateHz = choice.RateHz.Value,
            Unit = choice.Unit == ColumnUnits.Counts ? ColumnUnit.Counts : ColumnUnit.Mv,
            UnitPerCode = (choice.MicrovoltsPerCode ?? 1) * 1e-3,
            IsInverted = choice.IsInverted,
        });
    }
}
