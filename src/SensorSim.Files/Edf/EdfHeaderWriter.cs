// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Files.Edf;

/// <summary>Makes the bytes of a header, and refuses what the standard does not allow.</summary>
internal static class EdfHeaderWriter
{
    private static readonly string[] s_months = ["JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC"];

    /// <summary>The bytes of a header.</summary>
    /// <exception cref="ArgumentException">The header is not one that the standard allows; the message says which field and why.</exception>
    public static byte[] Bytes(EdfHeader header)
    {
        Check(header);
        byte[] bytes = new byte[header.HeaderBytes];
        bytes.AsSpan().Fill((byte)' ');
        if (header.IsBdf)
        {
            bytes[0] = 0xFF;
            "BIOSEMI"u8.CopyTo(bytes.AsSpan(1));
        }
        else
        {
            bytes[0] = (byte)'0';
        }

        Put(bytes, EdfFields.Patient, header.Patient);
        Put(bytes, EdfFields.Recording, header.Recording);
        Put(bytes, EdfFields.StartDate, header.Start.ToString("dd.MM.yy", CultureInfo.InvariantCulture));
        Put(bytes, EdfFields.StartTime, header.Start.ToString("HH.mm.ss", CultureInfo.InvariantCulture));
        Put(bytes, EdfFields.HeaderBytes, Text(header.HeaderBytes));
        Put(bytes, EdfFields.Reserved, Reserved(header));
        Put(bytes, EdfFields.RecordCount, Text(header.RecordCount));
        Put(bytes, EdfFields.RecordDuration, EdfNumber.Text(header.RecordDurationS));
        Put(bytes, EdfFields.SignalCount, Text(header.Signals.Count));
        int n = header.Signals.Count;
        for (int i = 0; i < n; i++)
        {
            EdfSignal s = header.Signals[i];
            Put(bytes, EdfFields.Label.Of(i, n), s.Label);
            Put(bytes, EdfFields.Transducer.Of(i, n), s.Transducer);
            Put(bytes, EdfFields.Dimension.Of(i, n), s.Dimension);
            Put(bytes, EdfFields.PhysicalMinimum.Of(i, n), EdfNumber.Text(s.PhysicalMinimum));
            Put(bytes, EdfFields.PhysicalMaximum.Of(i, n), EdfNumber.Text(s.PhysicalMaximum));
            Put(bytes, EdfFields.DigitalMinimum.Of(i, n), Text(s.DigitalMinimum));
            Put(bytes, EdfFields.DigitalMaximum.Of(i, n), Text(s.DigitalMaximum));
            Put(bytes, EdfFields.Prefilter.Of(i, n), s.Prefilter);
            Put(bytes, EdfFields.SamplesPerRecord.Of(i, n), Text(s.SamplesPerRecord));
            Put(bytes, EdfFields.SignalReserved.Of(i, n), s.Reserved);
        }

        return bytes;
    }

    /// <summary>The field of the recording as EDF+ wants it.</summary>
    /// <param name="start">Begin of the recording.</param>
    /// <param name="code">Code of the investigation, or X.</param>
    /// <param name="technician">Who recorded, or X.</param>
    /// <param name="equipment">With what, or X.</param>
    public static string RecordingField(DateTime start, string code, string technician, string equipment) =>
        $"Startdate {DateText(start)} {code} {technician} {equipment}";

    /// <summary>A date as EDF+ wants it, for example <c>02-MAR-2026</c>.</summary>
    public static string DateText(DateTime date) =>
        string.Create(CultureInfo.InvariantCulture, $"{date.Day:00}-{s_months[date.Month - 1]}-{date.Year:0000}");

    private static void Check(EdfHeader header)
    {
        if (header.Start.Year is < 1985 or > 2084 || header.Start.Ticks % TimeSpan.TicksPerSecond != 0)
        {
            throw new ArgumentException("The start must be a whole second from 1985 to 2084.", nameof(header));
        }

        if (header.Signals.Count is < 1 or > 9999)
        {
            throw new ArgumentException("There must be 1 to 9999 signals.", nameof(header));
        }

        if (header.RecordBytes > EdfFields.LargestRecordBytes)
        {
            throw new ArgumentException(
                $"A record has {header.RecordBytes} bytes; at most {EdfFields.LargestRecordBytes} are allowed.", nameof(header));
        }

        bool hasNotes = header.Signals.Any(s => s.IsAnnotation);
        if (hasNotes != (header.Continuity != EdfContinuity.Plain))
        {
            throw new ArgumentException("A plain file has no annotation signal, and any other has one.", nameof(header));
        }

        if (header.RecordDurationS < 0 || (header.RecordDurationS == 0 && header.Signals.Any(s => !s.IsAnnotation)))
        {
            throw new ArgumentException("The duration of a record must be above 0.", nameof(header));
        }

        if (hasNotes && !IsPlusRecording(header))
        {
            throw new ArgumentException(
                $"The field of the recording must begin with \"Startdate {DateText(header.Start)}\" and have three more words.", nameof(header));
        }

        if (hasNotes && header.Patient.Split(' ').Length < 4)
        {
            throw new ArgumentException("The field of the patient must have four words: code, sex, birth date, name; X when unknown.", nameof(header));
        }

        foreach (EdfSignal s in header.Signals)
        {
            if (s.DigitalMinimum < header.LowestSample || s.DigitalMaximum > header.HighestSample || s.DigitalMinimum >= s.DigitalMaximum)
            {
                throw new ArgumentException(
                    $"{s.Label}: the digital limits must ascend within {header.LowestSample} to {header.HighestSample}.", nameof(header));
            }

            if (s.PhysicalMinimum == s.PhysicalMaximum || s.SamplesPerRecord < 1)
            {
                throw new ArgumentException($"{s.Label}: the physical limits must differ, and a record must hold a sample.", nameof(header));
            }
        }
    }

    private static bool IsPlusRecording(EdfHeader header) =>
        header.Recording.StartsWith($"Startdate {DateText(header.Start)} ", StringComparison.Ordinal)
        && header.Recording.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length >= 5;

    private static string Reserved(EdfHeader header) => (header.IsBdf, header.Continuity) switch
    {
        (false, EdfContinuity.Plain) => "",
        (true, EdfContinuity.Plain) => "24BIT",
        (false, EdfContinuity.Continuous) => "EDF+C",
        (true, EdfContinuity.Continuous) => "BDF+C",
        (false, _) => "EDF+D",
        (true, _) => "BDF+D",
    };

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static void Put(byte[] bytes, EdfField field, string text)
    {
        if (text.Length > field.Width)
        {
            throw new ArgumentException($"{field.Name}: \"{text}\" is longer than {field.Width} characters.", nameof(text));
        }

        if (text.AsSpan().IndexOfAnyExceptInRange(' ', '~') >= 0)
        {
            throw new ArgumentException($"{field.Name}: \"{text}\" holds a character that is not printable ASCII.", nameof(text));
        }

        Encoding.ASCII.GetBytes(text, bytes.AsSpan(field.Begin, field.Width));
    }
}
