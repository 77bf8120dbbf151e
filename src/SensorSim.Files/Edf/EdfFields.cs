// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Edf;

/// <summary>Where the fields of the header stand: fixed ones first, then for each field of a signal one entry per signal.</summary>
internal static class EdfFields
{
    /// <summary>Bytes of the fixed part, and of the entries of one signal.</summary>
    public const int FixedBytes = 256;

    /// <summary>Recommended largest record (Kemp and Olivan 2003) [bytes].</summary>
    public const int LargestRecordBytes = 61_440;

    public static readonly EdfField Version = new("version", 0, 8);
    public static readonly EdfField Patient = new("patient", 8, 80);
    public static readonly EdfField Recording = new("recording", 88, 80);
    public static readonly EdfField StartDate = new("start date", 168, 8);
    public static readonly EdfField StartTime = new("start time", 176, 8);
    public static readonly EdfField HeaderBytes = new("bytes of the header", 184, 8);
    public static readonly EdfField Reserved = new("reserved", 192, 44);
    public static readonly EdfField RecordCount = new("number of records", 236, 8);
    public static readonly EdfField RecordDuration = new("duration of a record", 244, 8);
    public static readonly EdfField SignalCount = new("number of signals", 252, 4);

    // Begin: bytes after the fixed part for each signal before this field.
    public static readonly EdfField Label = new("label", 0, 16);
    public static readonly EdfField Transducer = new("transducer", 16, 80);
    public static readonly EdfField Dimension = new("dimension", 96, 8);
    public static readonly EdfField PhysicalMinimum = new("physical minimum", 104, 8);
    public static readonly EdfField PhysicalMaximum = new("physical maximum", 112, 8);
    public static readonly EdfField DigitalMinimum = new("digital minimum", 120, 8);
    public static readonly EdfField DigitalMaximum = new("digital maximum", 128, 8);
    public static readonly EdfField Prefilter = new("prefilter", 136, 80);
    public static readonly EdfField SamplesPerRecord = new("samples per record", 216, 8);
    public static readonly EdfField SignalReserved = new("reserved", 224, 32);
}

/// <summary>One field of the header.</summary>
/// <param name="Name">Name in messages.</param>
/// <param name="Begin">First byte; of a field of the signals: bytes before it per signal.</param>
/// <param name="Width">Characters.</param>
internal readonly record struct EdfField(string Name, int Begin, int Width)
{
    /// <summary>Name of the field of one signal, with the signal's number from 1.</summary>
    public EdfField Of(int signal, int signals) =>
        new(FormattableString.Invariant($"{Name} of signal {signal + 1}"), EdfFields.FixedBytes + (Begin * signals) + (Width * signal), Width);
}
