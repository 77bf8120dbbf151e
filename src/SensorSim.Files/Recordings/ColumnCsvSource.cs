// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>A file with a header line and one number per line, as a stream of one channel with codes of 24 bits.</summary>
/// <remarks>
/// Millivolts become the nearest code (ties to even). The whole file is checked when it is opened, so a mistake shows before
/// anything is made from it; reading then goes forward once more, in constant memory.
/// </remarks>
public sealed class ColumnCsvSource : ISampleStream, IDisposable
{
    private const int Bits = 24;
    private const int MinimumCode = -(1 << (Bits - 1));
    private const int MaximumCode = (1 << (Bits - 1)) - 1;
    private readonly ColumnCsvOptions _options;
    private readonly LineReader _lines;

    /// <summary>Opens and checks a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="options">What the file does not say itself.</param>
    /// <exception cref="InputFileException">There is no such file, or a line is not what it should be.</exception>
    /// <exception cref="ArgumentException">An option is out of its range.</exception>
    public ColumnCsvSource(string path, ColumnCsvOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.Validate();
        _options = options;
        Format = new StreamFormat([new ChannelFormat
        {
            Name = options.Channel,
            Device = "recording",
            RateHz = options.RateHz,
            Bits = Bits,
            IsSigned = true,
            UnitPerCode = options.UnitPerCode,
            Polarity = options.IsInverted ? -1 : 1,
        }]);
        using (LineReader check = Open(path))
        {
            EndTick = Count(check);
        }

        _lines = Open(path);
    }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick { get; }

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, EndTick);
        block.Begin(PositionTick, untilTick);
        int count = (int)(untilTick - PositionTick);
        if (count == 0)
        {
            return;
        }

        // With one channel a tick is a sample.
        block.Channels[0].Append(PositionTick, count, out Span<int> codes, out _);
        for (int i = 0; i < count; i++)
        {
            if (!_lines.Read())
            {
                throw _lines.Error(0, "the file has become shorter since it was checked; it must not change while it is read.");
            }

            codes[i] = Code(_lines);
        }

        PositionTick = untilTick;
    }

    /// <inheritdoc/>
    public void Dispose() => _lines.Dispose();

    private static LineReader Open(string path)
    {
        var lines = new LineReader(InputFiles.OpenRead(path), path);
        try
        {
            if (!lines.Read())
            {
                throw new InputFileException(path, 1, 0, "the file is empty; it must have a header line and then one number per line.");
            }

            if (double.TryParse(lines.Line, NumberStyles.Float, CultureInfo.InvariantCulture, out _))
            {
                throw lines.Error(1, $"found the number {InputFiles.Quote(lines.Line)}; the first line must be a header, such as ecg_mv.");
            }

            return lines;
        }
        catch
        {
            lines.Dispose();
            throw;
        }
    }

    private long Count(LineReader lines)
    {
        long count = 0;
        long emptyLine = 0;
        while (lines.Read())
        {
            if (lines.Line.IsEmpty)
            {
                emptyLine = emptyLine == 0 ? lines.LineNumber : emptyLine;
                continue;
            }

            // Empty lines are harmless at the end and a lost sample anywhere else.
            if (emptyLine != 0)
            {
                throw new InputFileException(lines.FileName, emptyLine, 1, "the line is empty; every line must hold one number.");
            }

            _ = Code(lines);
            count++;
        }

        return count > 0 ? count : throw lines.Error(0, "there is no number after the header; one per line is needed.");
    }

    private int Code(LineReader lines)
    {
        ReadOnlySpan<char> text = lines.Line;
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        if (!double.TryParse(text, Style, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            throw lines.Error(1, $"found {InputFiles.Quote(text)}; a line must hold one finite number with a decimal point, such as 0.5.");
        }

        if (_options.Unit == ColumnUnit.Counts && value != Math.Truncate(value))
        {
            throw lines.Error(1, $"found {InputFiles.Quote(text)}; counts must be whole numbers.");
        }

        double code = _options.Unit == ColumnUnit.Counts ? value : Math.Round(value / _options.UnitPerCode);
        return code is >= MinimumCode and <= MaximumCode ? (int)code : throw OutOfRange(lines, text);
    }

    private InputFileException OutOfRange(LineReader lines, ReadOnlySpan<char> text)
    {
        double step = _options.Unit == ColumnUnit.Counts ? 1 : _options.UnitPerCode;
        return lines.Error(1, string.Create(
            CultureInfo.InvariantCulture,
            $"found {InputFiles.Quote(text)}; the 24-bit codes hold {MinimumCode * step} to {MaximumCode * step} only."));
    }
}
