// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Files.Rows;
using SensorSim.Files.Text;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>The texts of annotations other than changes: truth, marks, acquisition, clocks, the true end.</summary>
internal static class EdfTexts
{
    // Ours have at most 25 characters.
    private const int LongestItem = 32;

    // A hundred years; sums of two stay far from the largest number.
    private const long LongestNs = 3_155_760_000_000_000_000;

    /// <summary><c>truth ecg r_peak value 1.02 beat 17 label normal;ambiguous</c>: what is not known is left out.</summary>
    public static void Truth(ref EdfTalBuilder tal, in TruthEvent truth)
    {
        tal.EndText();
        tal.Text("truth "u8);
        tal.Text(truth.Channel.Text());
        tal.Put((byte)' ');
        tal.Text(truth.Kind.Text());
        if (!double.IsNaN(truth.Value))
        {
            tal.Text(" value "u8);
            tal.Number(truth.Value);
        }

        if (truth.BeatId >= 0)
        {
            tal.Text(" beat "u8);
            tal.Integer(truth.BeatId);
        }

        if (truth.Label != BeatClass.None || truth.Flags != TruthFlags.None)
        {
            tal.Text(" label "u8);
            tal.Text(TruthCsv.Classes[(int)truth.Label]);
            Flag(ref tal, truth.Flags, TruthFlags.Ambiguous, TruthCsv.Ambiguous);
            Flag(ref tal, truth.Flags, TruthFlags.Optional, TruthCsv.Optional);
            Flag(ref tal, truth.Flags, TruthFlags.Overlapped, TruthCsv.Overlapped);
        }

        tal.EndText();
        tal.End();
    }

    /// <summary>Reads what <see cref="Truth"/> writes.</summary>
    /// <param name="text">Text of an annotation.</param>
    /// <param name="timeNs">Time of the row [ns].</param>
    /// <param name="truth">Receives the row.</param>
    /// <returns>False when it is another annotation, or broken.</returns>
    public static bool TryTruth(ReadOnlySpan<byte> text, long timeNs, out TruthEvent truth)
    {
        truth = default;
        var words = new EdfWords(text);
        if (!words.Takes("truth"u8) || !words.TryChannel(out ChannelName channel) || !words.TryKind(out MarkKind kind) || words.Left % 2 != 0)
        {
            return false;
        }

        truth = new TruthEvent(channel, kind, timeNs, double.NaN, -1, BeatClass.None, TruthFlags.None);
        while (words.Left > 0)
        {
            ReadOnlySpan<byte> key = words.Next();
            ReadOnlySpan<byte> word = words.Next();
            if (key.SequenceEqual("value"u8) && TryNumber(word, out double value))
            {
                truth = truth with { Value = value };
            }
            else if (key.SequenceEqual("beat"u8) && long.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out long beat))
            {
                truth = truth with { BeatId = beat };
            }
            else if (!key.SequenceEqual("label"u8) || !TryLabel(word, ref truth))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary><c>mark ecg r_peak sample 1250 value 75.1 quality 200</c>.</summary>
    public static void Mark(ref EdfTalBuilder tal, ChannelName channel, in Mark mark)
    {
        tal.EndText();
        tal.Text("mark "u8);
        tal.Text(channel.Text());
        tal.Put((byte)' ');
        tal.Text(mark.Kind.Text());
        tal.Text(" sample "u8);
        tal.Integer(mark.Sample);
        if (mark.HasValue)
        {
            tal.Text(" value "u8);
            tal.Number(mark.ValueMilli / 1000.0);
        }

        tal.Text(" quality "u8);
        tal.Integer(mark.Quality);
        tal.EndText();
        tal.End();
    }

    /// <summary><c>acquisition ecg unusable_lead_off</c> with its duration; <c>acquisition red setting_gain value 2</c>.</summary>
    public static void Acquisition(ref EdfTalBuilder tal, in AcquisitionEvent happened)
    {
        tal.Duration(Math.Max(0, happened.EndNs - happened.BeginNs));
        tal.EndText();
        tal.Text("acquisition "u8);
        tal.Text(happened.Channel.Text());
        tal.Put((byte)' ');
        tal.Text(AcquisitionItems.Of(happened).Item);
        if (!double.IsNaN(happened.Value))
        {
            tal.Text(" value "u8);
            tal.Number(happened.Value);
        }

        tal.EndText();
        tal.End();
    }

    /// <summary>Reads what <see cref="Acquisition"/> writes.</summary>
    /// <param name="note">An annotation.</param>
    /// <param name="items">Items that came before.</param>
    /// <param name="row">Receives the row; without an end where the annotation has no duration.</param>
    /// <returns>False when it is another annotation, or broken.</returns>
    public static bool TryAcquisition(in EdfNote note, SharedWords items, out AcquisitionRow row)
    {
        row = default;
        var words = new EdfWords(note.Text);
        double value = double.NaN;
        if (!words.Takes("acquisition"u8) || !words.TryChannel(out ChannelName channel) || words.Left is not (1 or 3))
        {
            return false;
        }

        ReadOnlySpan<byte> word = words.Next();
        Span<char> letters = stackalloc char[LongestItem];
        string item = Encoding.UTF8.TryGetChars(word, letters, out int length) ? items.Of(letters[..length]) : Encoding.UTF8.GetString(word);
        if (!IsHappening(item) || (words.Left > 0 && (!words.Takes("value"u8) || !TryNumber(words.Next(), out value))))
        {
            return false;
        }

        long? end = note.DurationNs is long duration ? note.OnsetNs + Math.Min(duration, LongestNs) : null;
        row = new AcquisitionRow(channel, item, note.OnsetNs, end, value, AcquisitionItems.UnitOf(item), "");
        return Math.Abs(note.OnsetNs) <= LongestNs;
    }

    /// <summary><c>end tick 2501 of 500</c>: the first tick after the recording, and ticks per second; after the times.</summary>
    public static void End(ref EdfTalBuilder tal, long tick, long ticksPerSecond)
    {
        tal.EndText();
        tal.Text("end tick "u8);
        tal.Integer(tick);
        tal.Text(" of "u8);
        tal.Integer(ticksPerSecond);
        tal.EndText();
        tal.End();
    }

    /// <summary>Reads what <see cref="End"/> writes.</summary>
    public static bool TryEnd(ReadOnlySpan<byte> text, out long tick, out long ticksPerSecond)
    {
        var words = new EdfWords(text);
        tick = ticksPerSecond = 0;
        return words.Left == 5 && words.Takes("end"u8) && words.Takes("tick"u8)
            && long.TryParse(words.Next(), NumberStyles.None, CultureInfo.InvariantCulture, out tick) && words.Takes("of"u8)
            && long.TryParse(words.Next(), NumberStyles.None, CultureInfo.InvariantCulture, out ticksPerSecond);
    }

    /// <summary><c>clock ecg offset_ns 1200 ppm 20</c>: what the device's clock adds to the declared delay.</summary>
    public static void Clock(ref EdfTalBuilder tal, in ChannelClock clock)
    {
        tal.EndText();
        tal.Text("clock "u8);
        tal.Text(clock.Channel.Text());
        tal.Text(" offset_ns "u8);
        tal.Integer(clock.OffsetNs);
        tal.Text(" ppm "u8);
        tal.Number(clock.Ppm);
        tal.EndText();
        tal.End();
    }

    /// <summary>Reads what <see cref="Clock"/> writes.</summary>
    public static bool TryClock(ReadOnlySpan<byte> text, out ChannelClock clock)
    {
        var words = new EdfWords(text);
        clock = default;
        if (!words.Takes("clock"u8) || words.Left != 5 || !words.TryChannel(out ChannelName channel)
            || !words.Takes("offset_ns"u8) || !long.TryParse(words.Next(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long offset)
            || !words.Takes("ppm"u8) || !TryNumber(words.Next(), out double ppm)
            || !(Math.Abs(ppm) < 1e6) || Math.Abs((decimal)offset) > 1e18m)
        {
            return false;
        }

        clock = new ChannelClock(channel, offset, ppm);
        return true;
    }

    private static bool TryNumber(ReadOnlySpan<byte> word, out double value) =>
        double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);

    private static bool IsHappening(string item) => AcquisitionRow.IsItem(item)
        && (item.StartsWith(AcquisitionItems.UnusablePrefix, StringComparison.Ordinal) || item == AcquisitionItems.LatePacket || AcquisitionItems.Settings.Contains(item));

    private static void Flag(ref EdfTalBuilder tal, TruthFlags flags, TruthFlags flag, string word)
    {
        if ((flags & flag) != 0)
        {
            tal.Put((byte)';');
            tal.Text(word);
        }
    }

    private static bool TryLabel(ReadOnlySpan<byte> text, ref TruthEvent truth)
    {
        var words = new EdfWords(text, (byte)';');
        if (!EdfWords.TryClass(words.Next(), out BeatClass label))
        {
            return false;
        }

        TruthFlags flags = TruthFlags.None;
        while (words.Left > 0)
        {
            ReadOnlySpan<byte> word = words.Next();
            TruthFlags flag = word.SequenceEqual("ambiguous"u8) ? TruthFlags.Ambiguous
                : word.SequenceEqual("optional"u8) ? TruthFlags.Optional
                : word.SequenceEqual("overlapped"u8) ? TruthFlags.Overlapped
                : TruthFlags.None;
            if (flag == TruthFlags.None)
            {
                return false;
            }

            flags |= flag;
        }

        truth = truth with { Label = label, Flags = flags };
        return true;
    }
}
