// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detection.Tests;
using SensorSim.Detection.Tests.Movement;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.WordLengths;

/// <summary>Canceller, spectrum and judge as tables of Markdown.</summary>
internal static class MovementTables
{
    public static void Write(TextWriter text, string title, IEnumerable<CancellerRow> rows)
    {
        text.WriteLine($"\n### {title}\n");
        text.WriteLine("| bits | artefact down by [dB] | difference from doubles, rms [codes] |");
        text.WriteLine("|--:|--:|--:|");
        foreach (CancellerRow r in rows)
        {
            text.WriteLine(Line($"| {Bits(r.Bits)} | {r.AttenuationDb:0.00} | {r.ErrorCodes:0.00} |"));
        }
    }

    public static void Write(TextWriter text, string title, IEnumerable<SpectrumRow> rows)
    {
        text.WriteLine($"\n### {title}\n");
        text.WriteLine("| bits | coherence 0.9: error [bpm] | given [%] | coherence 0.5: error [bpm] | given [%] |");
        text.WriteLine("|--:|--:|--:|--:|--:|");
        foreach (SpectrumRow r in rows)
        {
            text.WriteLine(Line($"| {Bits(r.Bits)} | {Number(r.ErrorBpm)} | {r.GivenPercent:0.0} | {Number(r.HalfErrorBpm)} | {r.HalfGivenPercent:0.0} |"));
        }
    }

    /// <summary>Shapes and judge.</summary>
    public static void WriteShapes(TextWriter text)
    {
        text.WriteLine("\n| shapes, ECG 12 dB | likeness: mean, SD, largest [1/256] | size: SD, largest [%] | spread: mean, SD, largest [ms] | other place of the best fit [%] |");
        text.WriteLine("|---|--:|--:|--:|--:|");
        foreach (int rateHz in new[] { 125, 250, 500, 1000 })
        {
            foreach (double microvolts in new[] { 1.0, 5, 39 })
            {
                ShapeCosts c = ShapeCosts.Of(rateHz, microvolts);
                text.WriteLine(Line($"| {rateHz} Hz, {microvolts:0} µV a code | {c.Likeness.ErrorMean:0.00}, {c.Likeness.ErrorSd:0.00}, {c.Likeness.ErrorMax:0.0} | {c.SizePercent.ErrorSd:0.000}, {c.SizePercent.ErrorMax:0.00} | {c.SpreadMs.ErrorMean:0.00}, {c.SpreadMs.ErrorSd:0.00}, {c.SpreadMs.ErrorMax:0.00} | {100.0 * c.OtherPlaces / c.Places:0.0} |"));
            }
        }

        JudgeCosts sum = default;
        for (int seed = 1; seed <= 100; seed++)
        {
            sum += JudgeCosts.Of(seed, 400);
        }

        text.WriteLine(Line($"\nJudge: {sum.Candidates} candidates, {sum.Beats} beats; {sum.Differ} decided otherwise, {sum.Wide} wide otherwise, {sum.OtherThreshold} with another threshold"));
    }

    /// <summary>Reference, canceller, spectrum.</summary>
    public static void WriteStages(TextWriter text)
    {
        text.WriteLine("\n| way, light, acceleration | functions: mean, SD, largest [1/16384 g] | other power of two [%] | output: SD of light, error SD, largest [codes] | error / light [dB] | one of both takes nothing off [%] | artefact down, library / twin [dB] |");
        text.WriteLine("|---|--:|--:|--:|--:|--:|--:|");
        foreach ((string way, int lightHz, int accelHz, double size) in new[]
        {
            ("pole 1 Hz", 100, 50, 1.0), ("pole 2 Hz", 100, 50, 1), ("pole 5 Hz", 100, 50, 1), ("delay 60 ms", 100, 50, 1), ("pole 2 Hz", 25, 50, 1),
            ("pole 2 Hz", 200, 50, 1), ("pole 2 Hz", 100, 25, 1), ("pole 2 Hz", 100, 400, 1), ("pole 2 Hz", 100, 50, 0.02), ("pole 2 Hz", 100, 50, 30),
        })
        {
            MovementCosts c = MovementCosts.Of(way, lightHz, accelHz, size);
            text.WriteLine(Line($"| {way}, {lightHz} Hz, {accelHz} Hz, pulse of {1500 * size:0} | {c.Functions.ErrorMean:0.00}, {c.Functions.ErrorSd:0.00}, {c.Functions.ErrorMax:0.0} | {c.OtherPowers:0.00} | {c.Output.SignalRms:0}, {c.Output.ErrorSd:0.00}, {c.Output.ErrorMax:0.0} | {c.Output.Decibels:0.0} | {c.OtherUse:0.00} | {c.FixedDb:0.00} / {c.TwinDb:0.00} |"));
        }

        text.WriteLine("\n| record | windows | other peak | rate where it is the same: mean, SD, largest [bpm] | margin: SD, largest [log2] | shown by one only | error, library / twin [bpm] |");
        text.WriteLine("|---|--:|--:|--:|--:|--:|--:|");
        foreach (double bpm in new[] { 52, 75, 110, 180.0 })
        {
            int[] light = new SyntheticPulse { RateHz = 100, BeatS = 60 / bpm, SnrDb = 24 }.Make(240, 5050);
            Write(text, $"rest, {bpm} bpm, 24 dB", SpectrumCosts.Of(light, new int[light.Length], 100, _ => bpm));
        }

        foreach ((double unexplained, string coherence) in new[] { (0.33, "0.9"), (1, "0.5") })
        {
            for (int seed = 5020; seed < 5024; seed++)
            {
                (int[] light, int[][] codes, Func<double, double> bpmAt) = Artefacts.Crossing(unexplained, 240, seed);
                (int[] left, int[] taken) = SpectrumCosts.Cancelled(light, codes, 100, 50);
                Write(text, $"crossing the cadence, coherence {coherence}, seed {seed}", SpectrumCosts.Of(left, taken, 100, bpmAt));
                if (seed == 5020)
                {
                    StageCost powers = SpectrumPartCosts.Powers(left, taken);
                    text.WriteLine(Line($"| (its powers within 40 dB) | | | SD {powers.ErrorSd:0.000} dB, largest {powers.ErrorMax:0.00} dB | | | |"));
                }
            }
        }

        (int windows, int other, StageCost margin) = SpectrumPartCosts.Track(3);
        text.WriteLine(Line($"\nTrack: {windows} windows, {other} with rates more than a bin apart, margin {margin.ErrorSd:0.0} SD, {margin.ErrorMax:0} largest [256 log2]"));
    }

    private static void Write(TextWriter text, string record, SpectrumCosts c) => text.WriteLine(
        Line($"| {record} | {c.Windows} | {c.OtherPeak} | {c.RateBpm.ErrorMean:0.000}, {c.RateBpm.ErrorSd:0.000}, {c.RateBpm.ErrorMax:0.00} | {c.MarginBits.ErrorSd:0.00}, {c.MarginBits.ErrorMax:0.00} | {c.OtherTrust} | {c.FixedBpm:0.00} / {c.TwinBpm:0.00} |"));

    private static string Bits(int bits) => bits == 0 ? "double" : bits.ToString(CultureInfo.InvariantCulture);

    private static string Number(double value) => double.IsNaN(value) ? "–" : value.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Line(FormattableString line) => FormattableString.Invariant(line);
}
