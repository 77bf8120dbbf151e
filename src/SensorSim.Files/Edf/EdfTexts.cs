// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>The texts of annotations other than changes: truth, marks, acquisition, clocks, the true end.</summary>
internal static class EdfTexts
{
    public const string TruthWord = "truth";
    private const string AcquisitionWord = "acquisition";

    // A hundred years; sums of two stay far from the largest number.
    private const long LongestNs = 3_155_760_000_000_000_000;
    private const string EndWord = "end";
    private const string ClockWord = "clock";

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
    public static bool TryTruth(string text, long timeNs, out TruthEvent truth)
    {
        truth = default;
        string[] words = text.Split(' ');
        if (words.Length < 3 || words.Length % 2 == 0 || words[0] != TruthWord
            || !ChannelNames.TryParse(words[1], out ChannelName channel) || !MarkKinds.TryParse(words[2], out MarkKind kind))
        {
            return false;
        }

        truth = new TruthEvent(channel, kind, timeNs, double.NaN, -1, BeatClass.None, TruthFlags.None);
        for (int i = 3; i < words.Length; i += 2)
        {
            if (words[i] == "value" && double.TryParse(words[i + 1], NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value))
            {
                truth = truth with { Value = value };
            }
            else if (words[i] == "beat" && long.TryParse(words[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out long beat))
            {
                truth = truth with { BeatId = beat };
            }
            else if (words[i] != "label" || !TryLabel(words[i + 1], ref truth))
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
    /// <param name="annotation">An annotation.</param>
    /// <param name="row">Receives the row; without an end where the annotation has no duration.</param>
    /// <returns>False when it is another annotation, or broken.</returns>
    public static bool TryAcquisition(in EdfAnnotation annotation, out AcquisitionRow row)
    {
        string[] words = annotation.Text.Split(' ');
        row = default;
        double value = double.NaN;
        if (words.Length is not (3 or 5) || words[0] != AcquisitionWord || !ChannelNames.TryParse(words[1], out ChannelName channel)
            || !IsHappening(words[2])
            || (words.Length == 5 && (words[3] != "value" || !double.TryParse(words[4], NumberStyles.Float, CultureInfo.InvariantCulture, out value) || !double.IsFinite(value))))
        {
            return false;
        }

        long? end = annotation.DurationNs is long duration ? annotation.OnsetNs + Math.Min(duration, LongestNs) : null;
        row = new AcquisitionRow(channel, words[2], annotation.OnsetNs, end, value, AcquisitionItems.UnitOf(words[2]), "");
        return Math.Abs(annotation.OnsetNs) <= LongestNs;
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
    public static bool TryEnd(string text, out long tick, out long ticksPerSecond)
    {
        string[] words = text.Split(' ');
        tick = ticksPerSecond = 0;
        return words.Length == 5 && words[0] == EndWord && words[1] == "tick" && words[3] == "of"
            && long.TryParse(words[2], NumberStyles.None, CultureInfo.InvariantCulture, out tick)
            && long.TryParse(words[4], NumberStyles.None, CultureInfo.InvariantCulture, out ticksPerSecond);
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
    public static bool TryClock(string text, out ChannelClock clock)
    {
        string[] words = text.Split(' ');
        clock = default;
        if (words.Length != 6 || words[0] != ClockWord || words[2] != "offset_ns" || words[4] != "ppm"
            || !ChannelNames.TryParse(words[1], out ChannelName channel)
            || !long.TryParse(words[3], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long offset)
            || !double.TryParse(words[5], NumberStyles.Float, CultureInfo.InvariantCulture, out double ppm)
            || !(Math.Abs(ppm) < 1e6) || Math.Abs((decimal)offset) > 1e18m)
        {
            return false;
        }

        clock = new ChannelClock(channel, offset, ppm);
        return true;
    }

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

    private static bool TryLabel(string text, ref TruthEvent truth)
    {
        string[] words = text.Split(';');
        int label = Array.IndexOf(TruthCsv.Classes, words[0]);
        TruthFlags flags = TruthFlags.None;
        foreach (string word in words.AsSpan(1))
        {
            TruthFlags flag = word switch
            {
                TruthCsv.Ambiguous => TruthFlags.Ambiguous,
                TruthCsv.Optional => TruthFlags.Optional,
                TruthCsv.Overlapped => TruthFlags.Overlapped,
                _ => TruthFlags.None,
            };
            if (flag == TruthFlags.None)
            {
                return false;
            }

            flags |= flag;
        }

        truth = truth with { Label = (BeatClass)Math.Max(0, label), Flags = flags };
        return label >= 0;
    }
}
