// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.WordLengths;

/// <summary>Room light and what the gates are decided on as tables of Markdown.</summary>
internal static class GateTables
{
    public static void WriteRoom(TextWriter text)
    {
        text.WriteLine("\n### Room light\n");
        text.WriteLine("| room, lit and dark rate, place [1/256] | light, smoothed dark off: mean, SD, largest [codes] | light, line off: mean, SD, largest [codes] | level of the room: mean, SD, largest [codes] | its swing: mean, SD, largest [codes] | other choice [%] |");
        text.WriteLine("|---|--:|--:|--:|--:|--:|");
        foreach (RoomScene scene in RoomScene.All)
        {
            RoomCosts c = RoomCosts.Of(scene);
            text.WriteLine(Line($"| {scene.Name}, {scene.LightHz} and {scene.DarkHz} Hz, {scene.Shift256} | {Cell(c.Smooth)} | {Cell(c.Line)} | {Cell(c.Ambient)} | {Cell(c.Swing)} | {c.OtherPercent:0.00} |"));
        }
    }

    public static void WriteGates(TextWriter text)
    {
        text.WriteLine("\n### What the gates are decided on\n");
        text.WriteLine("| measure | signal | signal SD | error mean, SD | largest | unit |");
        text.WriteLine("|---|---|--:|--:|--:|---|");
        foreach ((double size, int rateHz, int codesPerG) in new[] { (1.0, 50, 16_384), (1, 400, 4096), (0.13, 50, 16_384), (0.15, 25, 1024), (0.03, 100, 4096) })
        {
            (StageCost level, _) = GateCosts.Movement(size, rateHz, codesPerG);
            Write(text, "level of movement", Line($"gait × {size}, {rateHz} Hz, {codesPerG} codes a g"), level, "mg");
        }

        foreach (int rateHz in new[] { 25, 100, 250, 500 })
        {
            foreach (int amplitude in new[] { 100, 2000, 60_000 })
            {
                (StageCost level, double ratio) = GateCosts.Noise(rateHz, amplitude);
                Write(text, "noise of the light", Line($"light 36 dB, {rateHz} Hz, pulse of {amplitude} codes"), level, Line($"step; {100 * (ratio - 1):0.0} % in the mean"));
            }
        }

        foreach (int height in new[] { 10, 1000, 123_456 })
        {
            Write(text, "height off the median", Line($"heights of {height} codes"), GateCosts.Evidence(500, height).HeightOff, "1/64 octave");
        }

        text.WriteLine("\n| decision | signal | decisions | of them against giving | otherwise | the twin's measure then off its bound by, at most |");
        text.WriteLine("|---|---|--:|--:|--:|--:|");
        EvidenceCosts evidence = GateCosts.Evidence(500, 1000);
        text.WriteLine(Line($"| heights that stand out | scatter of 15 %, early ones 30 % | 5000 | | {evidence.OtherHeightsPercent:0.0} % | {evidence.WidestHeight:0.0}/64 octave |"));
        text.WriteLine(Line($"| intervals that stand out | scatter of 10 %, early ones | 5000 | | {evidence.OtherIntervalsPercent:0.0} % | {100 * evidence.WidestInterval:0.00} % |"));
        foreach (int level in new[] { 20_000, 300_000, 8_000_000 })
        {
            Write(text, "perfusion", Line($"falls below 0.1 %, light of {level} codes"), GateDecisions.Perfusion(level), "codes");
        }

        foreach (int sdUs in new[] { 3000, 5000, 6500 })
        {
            Write(text, "arrival given", Line($"scatter of {sdUs / 1000.0:0.0} ms"), GateDecisions.Arrivals(sdUs), "µs");
        }
    }

    private static void Write(TextWriter text, string measure, string signal, StageCost c, string unit) => text.WriteLine(
        Line($"| {measure} | {signal} | {c.SignalRms:0.0} | {c.ErrorMean:0.00}, {c.ErrorSd:0.00} | {c.ErrorMax:0.0} | {unit} |"));

    private static void Write(TextWriter text, string decision, string signal, GateDecisions d, string unit) => text.WriteLine(
        Line($"| {decision} | {signal} | {d.Decisions} | {d.Taken} | {d.Other} | {d.Widest:0.0} {unit} |"));

    private static string Cell(StageCost? cost) => cost is StageCost c ? Line($"{c.ErrorMean:0.000}, {c.ErrorSd:0.000}, {c.ErrorMax:0.00}") : "–";

    private static string Line(FormattableString line) => line.ToString(CultureInfo.InvariantCulture);
}
