// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>Rows of the rules marks and prompt: a window around each event, nothing between.</summary>
/// <remarks>
/// Windows of neighbours that are closer than two windows are parted in the middle, so that no instant belongs to two events and nobody has to match.
/// An event that is not scored, or optional, has a window too, and what is marked there is not looked at.
/// </remarks>
internal static class MarkRows
{
    public static IEnumerable<AcceptanceRow> Of(PlannedRequirement requirement, CaseTime time, CaseTruth truth)
    {
        (List<Window> windows, List<Stretch> scored, ChannelDelay clock) = Windows(requirement, time, truth);
        foreach (Window window in windows.Where(w => w.IsScored))
        {
            yield return RequirementPart.Row(requirement, AcceptanceRule.One, window.Stretch) with { BeatId = window.Event.BeatId };
        }

        List<Stretch> part = Stretches.Both([.. scored.Select(s => Device(s, clock))], [RequirementPart.Of(requirement)]);
        foreach (Stretch between in Stretches.Without(part, [.. windows.Select(w => w.Stretch)]))
        {
            yield return RequirementPart.Row(requirement, AcceptanceRule.None, between);
        }
    }

    public static IEnumerable<AcceptanceRow> Prompt(PlannedRequirement requirement, CaseTime time, CaseTruth truth)
    {
        (List<Window> windows, _, ChannelDelay clock) = Windows(requirement, time, truth);
        long latencyNs = RequirementPart.NsOfMs(requirement.LatencyMsMax ?? 0);
        foreach (Window window in windows.Where(w => w.IsScored))
        {
            yield return RequirementPart.Row(requirement, AcceptanceRule.By, window.Stretch) with
            {
                EmittedByNs = clock.DeviceNs(window.Event.TimeNs) + latencyNs,
                BeatId = window.Event.BeatId,
            };
        }
    }

    /// <summary>Windows around events, nominal device time, parted in the middle.</summary>
    public static List<Stretch> Around(IReadOnlyList<long> timesNs, long windowNs)
    {
        var windows = new List<Stretch>(timesNs.Count);
        for (int i = 0; i < timesNs.Count; i++)
        {
            long at = timesNs[i];
            long begin = i == 0 ? at - windowNs : Math.Max(at - windowNs, Middle(timesNs[i - 1], at));
            long end = i + 1 == timesNs.Count ? at + windowNs + 1 : Math.Min(at + windowNs + 1, Middle(at, timesNs[i + 1]));
            windows.Add(new Stretch(begin, Math.Max(end, begin + 1)));
        }

        return windows;
    }

    private static long Middle(long one, long other) => one + ((other - one) / 2) + 1;

    private static Stretch Device(Stretch body, in ChannelDelay clock) => new(clock.DeviceNs(body.BeginNs), clock.DeviceNs(body.EndNs));

    private static (List<Window> Windows, List<Stretch> Scored, ChannelDelay Clock) Windows(PlannedRequirement requirement, CaseTime time, CaseTruth truth)
    {
        IReadOnlyList<TruthEvent> events = truth.Of(requirement.Kind, requirement.Channel);
        ChannelDelay clock = (requirement.Channel ?? truth.ChannelOf(requirement.Kind) ?? time.ClockChannel(requirement.Kind, null)) is { } channel
            ? time.ClockOf(channel) : default;
        List<Stretch> scored = time.Scored(requirement.Kind, requirement.Channel);
        Stretch part = RequirementPart.Of(requirement);
        List<Stretch> around = Around([.. events.Select(e => clock.DeviceNs(e.TimeNs))], RequirementPart.NsOfMs(requirement.WindowMs));
        var windows = new List<Window>(events.Count);
        for (int i = 0; i < events.Count; i++)
        {
            bool isScored = (events[i].Flags & TruthFlags.Optional) == 0
                && Stretches.Contain(scored, events[i].TimeNs) && part.Contains(clock.DeviceNs(events[i].TimeNs));
            windows.Add(new Window(events[i], around[i], isScored));
        }

        return (windows, scored, clock);
    }

    private readonly record struct Window(TruthEvent Event, Stretch Stretch, bool IsScored);
}
