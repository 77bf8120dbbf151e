// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Truth turned into answers: events at their places, readings as the statistic over eight beats, nothing in unusable stretches, a gate that shuts there.</summary>
internal static class PerfectAnswers
{
    private const long LateNs = 100_000_000;
    private const int Beats = 8;

    public static List<DetectionRow> Of(PlannedCase planned, MadeRun run)
    {
        var clocks = run.Acquisition.Select(r => r.Channel).Distinct().ToDictionary(c => c, c => RecordClocks.DelayOf(c, [.. run.Acquisition], "a"));
        var answers = new List<DetectionRow>();
        foreach (TruthEvent truth in run.Truth.Where(t => JudgedKinds.Events.Contains(t.Kind)))
        {
            answers.Add(Row(truth.Channel, truth.Kind, clocks[truth.Channel].DeviceNs(truth.TimeNs), double.NaN));
        }

        List<TruthEvent> beats = [.. run.Truth.Where(t => t.Kind == MarkKind.RPeak).OrderBy(t => t.TimeNs)];
        for (int i = Beats; i < beats.Count; i++)
        {
            double rate = 60e9 * Beats / (beats[i].TimeNs - beats[i - Beats].TimeNs);
            answers.Add(Row(ChannelName.Ecg, MarkKind.HeartRateBpm, clocks[ChannelName.Ecg].DeviceNs(beats[i].TimeNs), rate));
        }

        foreach (TruthEvent arrival in run.Truth.Where(t => t.Kind == MarkKind.PatMs && t.Channel == ChannelName.Infrared))
        {
            answers.Add(Row(ChannelName.Infrared, MarkKind.ArrivalTimeMs, clocks[ChannelName.Infrared].DeviceNs(arrival.TimeNs), arrival.Value));
        }

        List<TruthEvent> saturation = [.. run.Truth.Where(t => t.Kind == MarkKind.Spo2Percent).OrderBy(t => t.TimeNs)];
        for (int i = Beats; i < saturation.Count; i++)
        {
            answers.Add(Row(
                ChannelName.Infrared, MarkKind.Spo2Percent, clocks[ChannelName.Infrared].DeviceNs(saturation[i].TimeNs), saturation.Skip(i - Beats + 1).Take(Beats).Average(s => s.Value)));
        }

        answers.RemoveAll(a => IsUnusable(a, run.Acquisition)
            || planned.Withhold.Any(w => a.TimeNs >= w.FromS * 1e9 && a.TimeNs < w.ToS * 1e9));
        foreach (AcquisitionRow off in run.Acquisition.Where(r => r.IsUnusable))
        {
            answers.Add(Row(off.Channel, MarkKind.GateShut, off.BeginNs, off.Item == "unusable_lead_off" ? 2 : 3));
        }

        return answers;
    }

    private static bool IsUnusable(DetectionRow answer, IReadOnlyList<AcquisitionRow> acquisition) => acquisition.Any(r =>
        r.IsUnusable && answer.TimeNs >= r.BeginNs && answer.TimeNs < (r.EndNs ?? long.MaxValue)
        && (r.Channel == answer.Channel || (answer.Kind == MarkKind.ArrivalTimeMs && r.Channel is ChannelName.Ecg or ChannelName.Infrared)));

    private static DetectionRow Row(ChannelName channel, MarkKind kind, long timeNs, double value) =>
        new(channel, kind, 0, timeNs, value, 255, null, null, null, timeNs + LateNs);
}
