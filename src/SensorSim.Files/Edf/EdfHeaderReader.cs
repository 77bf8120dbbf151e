// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Files.Text;

namespace SensorSim.Files.Edf;

/// <summary>Reads a header: lenient where the meaning is plain all the same, a clear error where it is not.</summary>
/// <remarks>
/// Taken: any sign between the parts of date and time, a date that is none (told as 1985), fields that stand to the right, zero bytes for spaces,
/// bytes above 126 in texts, patients and recordings in free text, a number of records of −1. Not taken: any number that cannot be read, and numbers
/// that contradict each other or the length of the file.
/// </remarks>
internal sealed class EdfHeaderReader
{
    /// <summary>Largest record that is read [bytes]: far above what the standard recommends, so that memory stays bounded.</summary>
    public const int LargestRecordBytes = 16 << 20;

    private const decimal ShortestRecordS = 0.000001m;
    private readonly string _file;
    private readonly byte[] _bytes;

    private EdfHeaderReader(string file, byte[] bytes)
    {
        _file = file;
        _bytes = bytes;
    }

    /// <summary>Reads a header from the start of a file.</summary>
    /// <param name="stream">The file, at its start.</param>
    /// <param name="file">Name in messages.</param>
    /// <returns>The header; its number of records is the one of the file, −1 included.</returns>
    /// <exception cref="InputFileException">The header is not what it should be.</exception>
    public static EdfHeader Read(Stream stream, string file)
    {
        byte[] first = new byte[EdfFields.FixedBytes];
        int got = stream.ReadAtLeast(first, first.Length, throwOnEndOfStream: false);
        if (got < first.Length)
        {
            throw new InputFileException(file, 0, 0, FormattableString.Invariant($"the file has {got} bytes; an EDF or BDF file begins with a header of at least 256."));
        }

        var start = new EdfHeaderReader(file, first);
        bool isBdf = start.IsBdf();
        int signals = (int)start.Whole(EdfFields.SignalCount, 1, 9999);
        int length = EdfFields.FixedBytes * (signals + 1);
        long told = start.Whole(EdfFields.HeaderBytes, 0, int.MaxValue);
        if (told != length)
        {
            throw start.Error(EdfFields.HeaderBytes, FormattableString.Invariant($"{signals} signals need {length}"));
        }

        if (stream.Length < length)
        {
            throw start.Error(EdfFields.HeaderBytes, FormattableString.Invariant($"the file has {stream.Length} bytes only; the header is cut off"));
        }

        byte[] bytes = new byte[length];
        first.CopyTo(bytes, 0);
        stream.ReadExactly(bytes.AsSpan(first.Length));
        return new EdfHeaderReader(file, bytes).Parse(isBdf, signals);
    }

    private EdfHeader Parse(bool isBdf, int signals)
    {
        string reserved = Text(EdfFields.Reserved);
        EdfContinuity continuity = reserved.StartsWith("EDF+C", StringComparison.Ordinal) || reserved.StartsWith("BDF+C", StringComparison.Ordinal)
            ? EdfContinuity.Continuous
            : reserved.StartsWith("EDF+D", StringComparison.Ordinal) || reserved.StartsWith("BDF+D", StringComparison.Ordinal)
                ? EdfContinuity.Discontinuous
                : EdfContinuity.Plain;
        var list = new EdfSignal[signals];
        for (int i = 0; i < signals; i++)
        {
            list[i] = Signal(i, signals, isBdf);
        }

        var header = new EdfHeader
        {
            IsBdf = isBdf,
            Continuity = continuity,
            Patient = Text(EdfFields.Patient),
            Recording = Text(EdfFields.Recording),
            Start = Start(),
            RecordCount = Whole(EdfFields.RecordCount, -1, 99_999_999),
            RecordDurationS = Number(EdfFields.RecordDuration),
            Signals = list,
        };
        bool hasOrdinary = Array.Exists(list, s => !s.IsAnnotation);
        if (header.RecordDurationS is < 0 or > 99_999_999 || (hasOrdinary && header.RecordDurationS < ShortestRecordS))
        {
            throw Error(EdfFields.RecordDuration, "must be seconds from 0.000001 to 99999999");
        }

        if (continuity == EdfContinuity.Discontinuous && !Array.Exists(list, s => s.IsAnnotation))
        {
            throw Error(EdfFields.Reserved, "records with gaps need a signal with annotations that says when each begins, and there is none");
        }

        if (header.RecordBytes > LargestRecordBytes)
        {
            throw new InputFileException(_file, 0, 0, FormattableString.Invariant(
                $"a record has {header.RecordBytes} bytes by its samples per record; at most {LargestRecordBytes} are read, and {EdfFields.LargestRecordBytes} are recommended."));
        }

        return header;
    }

    private EdfSignal Signal(int i, int n, bool isBdf)
    {
        (int lowest, int highest) = isBdf ? (-0x800000, 0x7FFFFF) : (short.MinValue, short.MaxValue);
        string label = Text(EdfFields.Label.Of(i, n));
        bool isAnnotation = label is EdfSignal.EdfAnnotationLabel or EdfSignal.BdfAnnotationLabel;
        int samples = (int)Whole(EdfFields.SamplesPerRecord.Of(i, n), 1, LargestRecordBytes);
        if (isAnnotation)
        {
            return EdfSignal.Annotations(isBdf, samples) with { Label = label };
        }

        EdfField top = EdfFields.DigitalMaximum.Of(i, n);
        int minimum = (int)Whole(EdfFields.DigitalMinimum.Of(i, n), lowest, highest);
        int maximum = (int)Whole(top, lowest, highest);
        return new EdfSignal
        {
            Label = label,
            Transducer = Text(EdfFields.Transducer.Of(i, n)),
            Dimension = Text(EdfFields.Dimension.Of(i, n)).Replace('\u00B5', 'u'),
            PhysicalMinimum = Number(EdfFields.PhysicalMinimum.Of(i, n)),
            PhysicalMaximum = Number(EdfFields.PhysicalMaximum.Of(i, n)),
            DigitalMinimum = minimum,
            DigitalMaximum = minimum < maximum ? maximum : throw Error(top, FormattableString.Invariant($"must be above the digital minimum, {minimum}")),
            Prefilter = Text(EdfFields.Prefilter.Of(i, n)),
            SamplesPerRecord = samples,
            Reserved = Text(EdfFields.SignalReserved.Of(i, n)),
        };
    }

    private bool IsBdf()
    {
        ReadOnlySpan<byte> version = _bytes.AsSpan(0, EdfFields.Version.Width);
        return EdfFileReader.Magic(version) ?? throw Error(EdfFields.Version, "must be 0 and seven spaces (EDF), or the byte 255 and BIOSEMI (BDF)");
    }

    // No sample hangs on it, so a date that is none stops nobody.
    private DateTime Start()
    {
        Span<int> parts = stackalloc int[6];
        if (!Parts(Text(EdfFields.StartDate), parts[..3]) || !Parts(Text(EdfFields.StartTime), parts[3..]))
        {
            return new DateTime(1985, 1, 1);
        }

        int year = parts[2] < 85 ? 2000 + parts[2] : 1900 + parts[2];
        bool isDate = parts[1] is >= 1 and <= 12 && parts[0] >= 1 && parts[0] <= DateTime.DaysInMonth(year, parts[1]);
        bool isTime = parts[3] < 24 && parts[4] < 60 && parts[5] < 60;
        return isDate && isTime ? new DateTime(year, parts[1], parts[0], parts[3], parts[4], parts[5]) : new DateTime(1985, 1, 1);
    }

    private static bool Parts(string text, Span<int> parts)
    {
        if (text.Length != EdfFields.StartDate.Width)
        {
            return false;
        }

        for (int i = 0; i < 3; i++)
        {
            if (!int.TryParse(text.AsSpan(3 * i, 2), NumberStyles.None, CultureInfo.InvariantCulture, out parts[i]))
            {
                return false;
            }
        }

        return true;
    }

    private string Text(EdfField field) =>
        Encoding.Latin1.GetString(_bytes, field.Begin, field.Width).Replace('\0', ' ').Trim(' ');

    private decimal Number(EdfField field) =>
        EdfNumber.TryRead(Text(field), out decimal number) ? number : throw Error(field, "must be a number with a decimal point");

    private long Whole(EdfField field, long minimum, long maximum)
    {
        return long.TryParse(Text(field), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long number) && number >= minimum && number <= maximum
            ? number
            : throw Error(field, FormattableString.Invariant($"must be a whole number from {minimum} to {maximum}"));
    }

    private InputFileException Error(EdfField field, string message) => new(_file, 0, 0, FormattableString.Invariant(
        $"byte {field.Begin}, {field.Name}: found {InputFiles.Quote(Text(field))}; {message}."));
}
