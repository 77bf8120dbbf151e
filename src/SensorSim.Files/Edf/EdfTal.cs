// SPDX-License-Identifier: MIT
using System.Buffers.Text;

namespace SensorSim.Files.Edf;

/// <summary>One time-stamped list of annotations as it stands in a record: onset, duration, texts.</summary>
internal ref struct EdfTal
{
    /// <summary>Stands after the onset and after each text.</summary>
    public const byte TextEnd = 0x14;

    /// <summary>Stands before the duration.</summary>
    public const byte DurationBegin = 0x15;

    /// <summary>Seconds that an onset may be away: some 285 years.</summary>
    public const long MostSeconds = 9_000_000_000;

    /// <summary>Onset [ns from the start that the header gives], rounded down.</summary>
    public long OnsetNs { get; init; }

    /// <summary>Whether there is a duration.</summary>
    public bool HasDuration { get; init; }

    /// <summary>Duration [ns].</summary>
    public long DurationNs { get; init; }

    /// <summary>The texts, each with its end.</summary>
    public ReadOnlySpan<byte> Texts { get; init; }

    /// <summary>Takes the next text out.</summary>
    public static bool TryTakeText(ref ReadOnlySpan<byte> texts, out ReadOnlySpan<byte> text)
    {
        int end = texts.IndexOf(TextEnd);
        if (end < 0)
        {
            text = default;
            return false;
        }

        text = texts[..end];
        texts = texts[(end + 1)..];
        return true;
    }
}

/// <summary>Goes through the lists of annotations of one record; takes nothing from the heap.</summary>
internal ref struct EdfTalReader(ReadOnlySpan<byte> bytes)
{
    private ReadOnlySpan<byte> _rest = bytes;

    /// <summary>Whether something stood there that is no list of annotations; then there is no next one.</summary>
    public bool IsBroken { get; private set; }

    /// <summary>The next list.</summary>
    public bool TryNext(out EdfTal tal)
    {
        tal = default;
        int begin = _rest.IndexOfAnyExcept((byte)0);
        if (begin < 0 || IsBroken)
        {
            return false;
        }

        ReadOnlySpan<byte> text = _rest[begin..];
        int end = text.IndexOf((byte)0);
        _rest = end < 0 ? default : text[end..];
        text = end < 0 ? text : text[..end];
        IsBroken = !TryParse(text, out tal);
        return !IsBroken;
    }

    private static bool TryParse(ReadOnlySpan<byte> text, out EdfTal tal)
    {
        tal = default;
        int first = text.IndexOf(EdfTal.TextEnd);
        if (first < 2 || text[^1] != EdfTal.TextEnd || text[0] is not ((byte)'+' or (byte)'-'))
        {
            return false;
        }

        ReadOnlySpan<byte> times = text[1..first];
        int mark = times.IndexOf(EdfTal.DurationBegin);
        long duration = 0;
        if (!TrySeconds(mark < 0 ? times : times[..mark], out long onset) || (mark >= 0 && !TrySeconds(times[(mark + 1)..], out duration)))
        {
            return false;
        }

        tal = new EdfTal
        {
            OnsetNs = text[0] == '-' ? -onset : onset,
            HasDuration = mark >= 0,
            DurationNs = duration,
            Texts = text[(first + 1)..],
        };
        return true;
    }

    private static bool TrySeconds(ReadOnlySpan<byte> text, out long nanoseconds)
    {
        int point = text.IndexOf((byte)'.');
        ReadOnlySpan<byte> whole = point < 0 ? text : text[..point];
        ReadOnlySpan<byte> fraction = point < 0 ? default : text[(point + 1)..];
        nanoseconds = 0;
        if (whole.IsEmpty || whole.IndexOfAnyExceptInRange((byte)'0', (byte)'9') >= 0
            || fraction.IndexOfAnyExceptInRange((byte)'0', (byte)'9') >= 0
            || !Utf8Parser.TryParse(whole, out long seconds, out _) || seconds > EdfTal.MostSeconds)
        {
            return false;
        }

        nanoseconds = seconds * 1_000_000_000;
        long scale = 100_000_000;
        for (int i = 0; i < fraction.Length && scale > 0; i++, scale /= 10)
        {
            nanoseconds += (fraction[i] - '0') * scale;
        }

        return true;
    }
}
