// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.WordLengths;

/// <summary>The study as tables of Markdown.</summary>
internal static class Tables
{
    public static void Write(TextWriter text, string title, IEnumerable<StudyRow> rows)
    {
        text.WriteLine($"\n## {title}\n");
        text.WriteLine("| bits | ECG clean: Se / +P | bias, SD [ms] | ECG 12 dB: Se / +P | bias, SD [ms] | light clean: Se / +P | bias, SD [ms] | light 36 dB: Se / +P | bias, SD [ms] |");
        text.WriteLine("|--:|--:|--:|--:|--:|--:|--:|--:|--:|");
        foreach (StudyRow row in rows)
        {
            string bits = row.Bits == 0 ? "double" : row.Bits.ToString(CultureInfo.InvariantCulture);
            text.WriteLine($"| {bits} | {Cells(row.EcgClean)} | {Cells(row.EcgNoisy)} | {Cells(row.LightClean)} | {Cells(row.LightNoisy)} |");
        }
    }

    public static void WriteCosts(TextWriter text)
    {
        text.WriteLine("\n## What fixed point costs, stage by stage\n");
        text.WriteLine("| stage | signal | signal SD [LSB] | error mean, SD [LSB] | largest [LSB] | error / signal [dB] |");
        text.WriteLine("|---|---|--:|--:|--:|--:|");
        foreach (int rateHz in new[] { 250, 500, 1000 })
        {
            WriteCost(text, "BandPass", $"ECG 12 dB, {rateHz} Hz, 1 µV", StageCosts.BandPass(rateHz, 1));
            WriteCost(text, "QrsEnergy", $"ECG 12 dB, {rateHz} Hz, 1 µV", StageCosts.Energy(rateHz, 1));
        }

        foreach (int rateHz in new[] { 100, 250 })
        {
            foreach (int amplitude in new[] { 100, 2000, 60_000 })
            {
                string signal = $"light 36 dB, {rateHz} Hz, pulse of {amplitude} codes";
                WriteCost(text, "WatchSlope", signal, StageCosts.WatchSlope(rateHz, amplitude));
                WriteCost(text, "CubicFit, slope", signal, StageCosts.CubicSlope(rateHz, amplitude));
                WriteCost(text, "CubicFit, level", signal, StageCosts.CubicLevel(rateHz, amplitude));
            }
        }
    }

    public static void WriteAnswers(TextWriter text, IEnumerable<AnswerRow> rows)
    {
        text.WriteLine("\n## What fixed point costs the answers\n");
        text.WriteLine("| signal | library: Se / +P | bias, SD [ms] | twin: Se / +P | bias, SD [ms] | rms of the difference of times [ms] |");
        text.WriteLine("|---|--:|--:|--:|--:|--:|");
        foreach (AnswerRow row in rows)
        {
            text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {row.Signal} | {Cells(row.Library)} | {Cells(row.Twin)} | {row.RmsMs:0.000} |"));
        }
    }

    private static void WriteCost(TextWriter text, string stage, string signal, StageCost c) => text.WriteLine(
        string.Create(CultureInfo.InvariantCulture, $"| {stage} | {signal} | {c.SignalRms:0} | {c.ErrorMean:0.00}, {c.ErrorSd:0.00} | {c.ErrorMax:0.0} | {(c.ErrorMax == 0 ? "exact" : c.Decibels.ToString("0.0", CultureInfo.InvariantCulture))} |"));

    private static string Cells(TwinScore? score) => score is not TwinScore s ? "– | –"
        : s.Matched == 0 ? "0 / – | –"
        : string.Create(CultureInfo.InvariantCulture, $"{s.SensitivityPercent:0.0} / {s.PredictivityPercent:0.0} | {s.BiasMs:0.00}, {s.SdMs:0.00}");
}
