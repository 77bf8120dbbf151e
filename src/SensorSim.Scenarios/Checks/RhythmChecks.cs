// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses rhythms that no heart could have, with the nearest feasible value.</summary>
internal static class RhythmChecks
{
    private const double LowestHfHz = 0.15;
    private const double HighestHfHz = 0.40;

    public static void Check(KeyValues values, Action<KeyDefinition, string> report)
    {
        CheckQt(values, report);
        CheckWanted(values, report);
        CheckBlock(values, report);
        CheckPauses(values, report);
        CheckScript(values, report);
        CheckBeatsLabel(values, report);
        CheckEctopy(values, report);
    }

    // Premature beats belong to sinus rhythm; a wish that cannot be met must not pass in silence.
    private static void CheckEctopy(KeyValues values, Action<KeyDefinition, string> report)
    {
        ChoiceCourse rhythm = values.Course(HeartKeys.Rhythm);
        ChoiceKey[] patterns = [EctopyKeys.VentricularPattern, EctopyKeys.AtrialPattern];
        if (!rhythm.Words.Contains("sinus") && Array.Find(patterns, k => values.Course(k).Words.Any(w => w != "none")) is ChoiceKey key)
        {
            report(key, $"{key.Name} acts in sinus rhythm only, and heart.rhythm = \"{rhythm.First}\" has none; leave out the pattern, or list the beats with heart.rhythm = \"scripted\"");
        }
    }

    // The T wave needs room before the next QRS. Tachycardia of the ventricles is left out: there it has none in people either.
    private static void CheckQt(KeyValues values, Action<KeyDefinition, string> report)
    {
        ChoiceCourse rhythm = values.Course(HeartKeys.Rhythm);
        foreach (string word in rhythm.Words)
        {
            NumberKey? key = word switch
            {
                "sinus" or "atrial_fibrillation" or "second_degree_block_type_1" or "second_degree_block_type_2" => HeartKeys.RateBpm,
                "third_degree_block" => BlockKeys.EscapeRateBpm,
                "paced" => VentricularKeys.PacingRateBpm,
                _ => null,
            };
            if (key is null)
            {
                continue;
            }

            double rate = values.Course(key).Highest;
            double qtc = values.Course(EcgKeys.QtcMs).Highest;
            double qt = QtLimits.SteadyQtSeconds(values, qtc, 60 / rate);
            if (qt > QtLimits.LargestShare * 60 / rate)
            {
                double largest = QtLimits.LargestQtcMs(values, 60 / rate);
                string way = largest >= EcgKeys.QtcMs.Minimum ? $"ecg.qtc_ms at most {Text(largest)}, or " : "";
                report(
                    values.IsSet(EcgKeys.QtcMs) ? EcgKeys.QtcMs : key,
                    $"at {key.Name} = {Text(rate)} a QT of {Text(Math.Round(1000 * qt))} ms (ecg.qtc_ms = {Text(qtc)}) is more than nine tenths of the RR interval; {way}{key.Name} at most {Text(QtLimits.LargestRateBpm(values, qtc))}");
                return;
            }
        }
    }

    private static void CheckWanted(KeyValues values, Action<KeyDefinition, string> report)
    {
        NumberKey[] wanted = [HeartKeys.SdnnMs, HeartKeys.RmssdMs, HeartKeys.LfHf];
        NumberKey[] given = [.. wanted.Where(values.IsSet)];
        if (given.Length == 0)
        {
            return;
        }

        if (given.Length < wanted.Length)
        {
            string missing = string.Join(" and ", wanted.Except(given).Select(k => k.Name));
            report(given[0], $"{given[0].Name} stands without {missing}; set all three, or the variabilities by themselves");
            return;
        }

        NumberKey[] bands = [HeartKeys.RespiratoryVariabilityMs, HeartKeys.SlowVariabilityMs, HeartKeys.DriftVariabilityMs];
        if (Array.Find(bands, k => values.IsSet(k) || values.IsChanging(k)) is NumberKey band)
        {
            report(band, $"{band.Name} and heart.sdnn_ms both set the variability; leave out one of them");
            return;
        }

        Course breathing = values.Course(BreathingKeys.RatePerMin);
        double lowest = breathing.Lowest;
        double outside = lowest < 60 * LowestHfHz ? lowest : breathing.Highest;
        if (outside < 60 * LowestHfHz || outside > 60 * HighestHfHz)
        {
            double nearest = Math.Max(60 * LowestHfHz, Math.Min(60 * HighestHfHz, outside));
            report(HeartKeys.LfHf, $"heart.lf_hf needs breathing inside 0.15 to 0.40 Hz, 9 to 24 a minute, but breathing.rate_per_min = {Text(outside)}; the nearest is {Text(Math.Round(nearest))}");
            return;
        }

        double rmssd = values[HeartKeys.RmssdMs];
        double largest = VariabilityBands.LargestRmssdMs(values);
        double smallest = VariabilityBands.SmallestRmssdMs(values);
        if (rmssd > largest)
        {
            report(
                HeartKeys.RmssdMs,
                $"heart.rmssd_ms = {Text(rmssd)} with heart.sdnn_ms = {Text(values[HeartKeys.SdnnMs])} and heart.lf_hf = {Text(values[HeartKeys.LfHf])} would need negative power below 0.04 Hz; at most {Text(Tenth(largest, Math.Floor))} ms");
        }
        else if (rmssd < smallest)
        {
            report(
                HeartKeys.RmssdMs,
                $"heart.rmssd_ms = {Text(rmssd)} is less than heart.sdnn_ms = {Text(values[HeartKeys.SdnnMs])} gives with all of its power below 0.04 Hz; at least {Text(Tenth(smallest, Math.Ceiling))} ms");
        }
    }

    // Growing PR must leave the beat before the next P wave's own.
    private static void CheckBlock(KeyValues values, Action<KeyDefinition, string> report)
    {
        if (!values.Course(HeartKeys.Rhythm).Words.Contains("second_degree_block_type_1"))
        {
            return;
        }

        double interval = 60000 / values.Course(HeartKeys.RateBpm).Highest;
        double most = Math.Floor(interval / 4);
        double increment = values.Course(BlockKeys.PrIncrementMs).Highest;
        if (increment > most)
        {
            report(
                values.IsSet(BlockKeys.PrIncrementMs) ? BlockKeys.PrIncrementMs : HeartKeys.RateBpm,
                $"block.pr_increment_ms = {Text(increment)} is too much for P waves {Text(Math.Round(interval))} ms apart; at most a quarter, {Text(most)} ms");
        }
    }

    private static void CheckPauses(KeyValues values, Action<KeyDefinition, string> report)
    {
        double pause = values.Course(HeartKeys.PauseS).Highest;
        double every = values[HeartKeys.PauseEveryS];
        if (pause > every / 2)
        {
            report(
                values.IsSet(HeartKeys.PauseS) ? HeartKeys.PauseS : HeartKeys.PauseEveryS,
                $"heart.pause_s = {Text(pause)} is more than half of heart.pause_every_s = {Text(every)}; at most {Text(every / 2)} s, or heart.pause_every_s at least {Text(2 * pause)} s");
        }
    }

    private static void CheckScript(KeyValues values, Action<KeyDefinition, string> report)
    {
        bool isScripted = values.Course(HeartKeys.Rhythm).Words.Contains("scripted");
        bool hasList = values.IsSet(HeartKeys.Beats);
        bool hasFile = values.IsSet(HeartKeys.BeatsFile);
        if (hasList && hasFile)
        {
            report(HeartKeys.BeatsFile, "heart.beats_file and heart.beats both give the beats; leave out one of them");
        }
        else if (isScripted && !hasList && !hasFile)
        {
            report(HeartKeys.Rhythm, "heart.rhythm = \"scripted\" needs beats; set heart.beats or heart.beats_file");
        }
        else if (!isScripted && (hasList || hasFile))
        {
            KeyDefinition given = hasList ? HeartKeys.Beats : HeartKeys.BeatsFile;
            report(given, $"{given.Name} is used by heart.rhythm = \"scripted\" only; set that rhythm, or leave out {given.Name}");
        }
    }

    private static void CheckBeatsLabel(KeyValues values, Action<KeyDefinition, string> report)
    {
        if (values.IsSet(HeartKeys.BeatsLabel) && !values.IsSet(HeartKeys.BeatsFile))
        {
            report(HeartKeys.BeatsLabel, "heart.beats_label says which annotations of a file are beats; set heart.beats_file, or leave out heart.beats_label");
        }
    }

    private static double Tenth(double value, Func<double, double> round) => round(10 * value) / 10;

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
