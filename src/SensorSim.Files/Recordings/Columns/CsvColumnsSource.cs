// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings.Columns;

/// <summary>A table with a header, some of whose columns become channels of one rate with codes of 24 bits.</summary>
/// <remarks>
/// Numbers become the nearest code (ties to even). An empty field, or <c>nan</c>, is a sample that never came; so is a jump of the times or
/// of the sample numbers. The whole file is checked when it is opened; reading then goes forward once more, in constant memory.
/// </remarks>
public sealed class CsvColumnsSource : ISampleStream, IDisposable
{
    private const int Bits = 24;
    private const int MinimumCode = -(1 << (Bits - 1));
    private const int MaximumCode = (1 << (Bits - 1)) - 1;

    // Plain names of columns that say where a row stands, and how many of their units a second has; 0: they count samples.
    private static readonly (string Name, double PerSecond)[] s_places = [("time_s", 1), ("time_ms", 1e3), ("time_us", 1e6), ("time_ns", 1e9), ("sample", 0)];

    private readonly IReadOnlyList<ColumnChoice> _columns;
    private readonly CsvRows _rows;
    private RowPlaces _places;
    private long _index;
    private bool _hasRow;

    /// <summary>Opens and checks a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="options">What the file does not say itself.</param>
    /// <exception cref="InputFileException">There is no such file, or it is not what it should be.</exception>
    public CsvColumnsSource(string path, CsvColumnsOptions options)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(options);
        using (var check = new CsvRows(path))
        {
            _columns = ColumnChoice.Of(check, options);
            RowPlaces places = PlacesOf(path, check, options, out int rateHz);
            Format = new StreamFormat(_columns.Select(c => FormatOf(c, rateHz)));
            _places = places;
            EndTick = Check(check, places);
            Notes = places.IsByRow && check.Header.Count > _columns.Count
                ? [$"{path}: its rows are taken as samples without a gap between them; if a column says when they were taken, name it, such as --map \"COLUMN=time_s\""]
                : [];
        }

        _rows = new CsvRows(path);
        Advance();
    }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick { get; }

    /// <summary>What the user should know of how the file is read, a sentence each.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>What a column may be called that says where a row stands.</summary>
    public static IReadOnlyList<string> PlaceNames { get; } = [.. s_places.Select(p => p.Name)];

    /// <summary>Names of the columns of a table, as they stand in its header.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or no header.</exception>
    public static IReadOnlyList<string> ColumnsOf(string path)
    {
        using var rows = new CsvRows(path);
        return rows.Header;
    }

    /// <summary>Whether a column says where a row stands.</summary>
    /// <param name="name">Plain name of the column.</param>
    internal static bool IsPlace(string name) => Array.Exists(s_places, p => p.Name == name);

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, EndTick);
        block.Begin(PositionTick, untilTick);

        // All channels have the same rate: a tick is a sample.
        while (_hasRow && _index < untilTick)
        {
            for (int i = 0; i < _columns.Count; i++)
            {
                if (!_rows.IsMissing(_columns[i].Place))
                {
                    block.Channels[i].Append(_index, 1, out Span<int> codes, out _);
                    codes[0] = Code(_rows, _columns[i]);
                }
            }

            Advance();
        }

        PositionTick = untilTick;
    }

    /// <inheritdoc/>
    public void Dispose() => _rows.Dispose();

    private static ChannelFormat FormatOf(ColumnChoice column, int rateHz) => new()
    {
        Name = column.Channel,
        Device = "recording",
        RateHz = rateHz,
        Bits = Bits,
        IsSigned = true,
        UnitPerCode = column.PerCode,
        Polarity = column.IsInverted ? -1 : 1,
    };

    private static RowPlaces PlacesOf(string path, CsvRows rows, CsvColumnsOptions options, out int rateHz)
    {
        string[] plain = ColumnChoice.PlainNames(rows, options);
        int? ownRateHz = options.RateHz;
        foreach ((string name, double perSecond) in s_places)
        {
            int column = Array.IndexOf(plain, name);
            if (column >= 0 && (perSecond > 0 || ownRateHz is not null))
            {
                rateHz = ownRateHz ?? RateFinder.Of(path, column, perSecond);
                return new RowPlaces(column, perSecond, rateHz);
            }
        }

        rateHz = ownRateHz ?? throw rows.Error(options.Place is null
            ? "there is no column time_s, time_ms, time_us or time_ns to tell the sampling rate; say which one holds times, such as --map \"COLUMN=time_s\", or add --rate-hz, for example --rate-hz 360."
            : "sample numbers do not tell the sampling rate; add --rate-hz, for example --rate-hz 360.");
        return new RowPlaces(-1, 0, rateHz);
    }

    private long Check(CsvRows rows, RowPlaces places)
    {
        long end = 0;
        while (rows.Read())
        {
            end = places.Next(rows) + 1;
            foreach (ColumnChoice column in _columns)
            {
                if (!rows.IsMissing(column.Place))
                {
                    _ = Code(rows, column);
                }
            }
        }

        return end > 0 ? end : throw rows.Error("there is no row after the header; one for each sample is needed.");
    }

    private void Advance()
    {
        _hasRow = _rows.Read();
        _index = _hasRow ? _places.Next(_rows) : _index;
    }

    private static int Code(CsvRows rows, ColumnChoice column)
    {
        double value = rows.Number(column.Place);
        if (column.Factor is null && value != Math.Truncate(value))
        {
            throw rows.Error(column.Place, "holds counts, which must be whole numbers");
        }

        double code = column.Factor is double factor ? Math.Round(value * factor / column.PerCode) : value;
        return code is >= MinimumCode and <= MaximumCode ? (int)code : throw OutOfRange(rows, column);
    }

    private static InputFileException OutOfRange(CsvRows rows, ColumnChoice column)
    {
        double step = column.Factor is double factor ? column.PerCode / factor : 1;
        return rows.Error(column.Place, string.Create(
            CultureInfo.InvariantCulture, $"must lie between {MinimumCode * step:0.######} and {MaximumCode * step:0.######}, which is what codes of 24 bits hold"));
    }
}
