// SPDX-License-Identifier: MIT
using System.Buffers.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Annotations that the samples cannot be understood without: gaps, and changes of the status word.</summary>
/// <remarks>
/// <c>gap ecg 1250:3</c> is three samples from sample 1250 that were never delivered; <c>status ecg 1250:3 lead_off_positive</c> a status word from
/// that sample on. A list has further ones relative to the one before: <c>status ecg 1250:3 +40:0 +1:3</c>. They stand in the record of their samples.
/// </remarks>
internal static class EdfChangeTexts
{
    // Readers with a fixed length take 512 bytes.
    private const int LongestList = 480;
    private static readonly (int Flag, byte[] Word)[] s_words =
    [
        ((int)SampleStatus.LeadOffPositive, " lead_off_positive"u8.ToArray()),
        ((int)SampleStatus.LeadOffNegative, " lead_off_negative"u8.ToArray()),
        ((int)SampleStatus.LeadOffThird, " lead_off_third"u8.ToArray()),
        ((int)SampleStatus.Saturated, " saturated"u8.ToArray()),
        ((int)SampleStatus.OverRange, " over_range"u8.ToArray()),
        ((int)SampleStatus.BufferOverflow, " buffer_overflow"u8.ToArray()),
        ((int)SampleStatus.PacingSpike, " pacing_spike"u8.ToArray()),
        ((int)SampleStatus.NoContact, " no_contact"u8.ToArray()),
    ];

    /// <summary>First word of a gap.</summary>
    public static ReadOnlySpan<byte> Gap => "gap"u8;

    /// <summary>First word of a change of status.</summary>
    public static ReadOnlySpan<byte> Status => "status"u8;

    /// <summary>Annotates changes in the current record.</summary>
    /// <returns>Whether they fit.</returns>
    public static bool TryWrite(
        EdfFileWriter writer, StreamFormat format, EdfWriterTrack track, ReadOnlySpan<byte> word, ReadOnlySpan<EdfChange> changes, bool isList)
    {
        bool isGap = word.SequenceEqual(Gap);
        for (int i = 0; i < changes.Length;)
        {
            long onset = format.DeviceTimeNs(track.Channel, changes[i].Sample, 0);
            EdfTalBuilder tal = writer.Builder(onset);
            if (isGap && !isList)
            {
                tal.Duration(format.DeviceTimeNs(track.Channel, changes[i].Sample + changes[i].Value, 0) - onset);
            }

            tal.EndText();
            tal.Text(word);
            tal.Put((byte)' ');
            tal.Text(track.Name.Text());
            tal.Put((byte)' ');
            tal.Integer(changes[i].Sample);
            tal.Put((byte)':');
            tal.Integer(changes[i].Value);
            if (!isList && !isGap)
            {
                Words(ref tal, changes[i].Value);
            }

            for (i++; isList && i < changes.Length && tal.Length < LongestList && !tal.IsFull; i++)
            {
                tal.Text(" +"u8);
                tal.Integer(changes[i].Sample - changes[i - 1].Sample);
                tal.Put((byte)':');
                tal.Integer(changes[i].Value);
            }

            tal.EndText();
            tal.End();
            if (!writer.Take(tal))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Takes the next change out of the words after the channel.</summary>
    /// <param name="words">What follows.</param>
    /// <param name="before">Sample of the change before, for a relative one.</param>
    /// <param name="change">Receives the change.</param>
    public static bool TryTake(ref ReadOnlySpan<byte> words, long before, out EdfChange change)
    {
        change = default;
        bool isRelative = words.Length > 0 && words[0] == (byte)'+';
        ReadOnlySpan<byte> text = isRelative ? words[1..] : words;
        if (text.IsEmpty || text[0] is < (byte)'0' or > (byte)'9'
            || !Utf8Parser.TryParse(text, out long sample, out int used) || used >= text.Length || text[used] != (byte)':'
            || sample > long.MaxValue / 4)
        {
            return false;
        }

        text = text[(used + 1)..];
        if (!Utf8Parser.TryParse(text, out int value, out used) || value < 0)
        {
            return false;
        }

        words = text[used..].TrimStart((byte)' ');
        change = new EdfChange(isRelative ? before + sample : sample, value);
        return true;
    }

    private static void Words(ref EdfTalBuilder tal, int status)
    {
        foreach ((int flag, byte[] word) in s_words)
        {
            if ((status & flag) != 0)
            {
                tal.Text(word);
            }
        }

        int settings = status >> StatusWord.SettingsShift;
        if (settings != 0)
        {
            tal.Text(" settings_"u8);
            tal.Integer(settings);
        }
    }
}
