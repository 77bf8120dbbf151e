// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>Rows of the rule withheld: nothing where the signals are unusable, where truth has nothing, and where the plan says so. Lead-in and last second too.</summary>
internal static class WithheldRows
{
    public static IEnumerable<AcceptanceRow> Of(PlannedRequirement requirement, CaseTime time, CaseTruth truth)
    {
        if (time.ClockChannel(requirement.Kind, requirement.Channel) is not { } channel)
        {
            yield break;
        }

        ChannelDelay clock = time.ClockOf(channel);
        IReadOnlyList<TruthEvent> events = JudgedKinds.Events.Contains(requirement.Kind) ? truth.Of(requirement.Kind, requirement.Channel) : [];
        List<Stretch> all = Stretches.Joined(
        [
            .. time.Unusable(requirement.Kind, requirement.Channel).Concat(Absent(requirement, time, truth)).Select(s => Device(s, clock)),
            .. time.Withheld,
        ]);
        long windowNs = RequirementPart.NsOfMs(requirement.WindowMs);

        // A mark of an event outside may be off by the window and reach in.
        List<Stretch> outside = Stretches.Joined(events
            .Select(e => clock.DeviceNs(e.TimeNs))
            .Where(t => !Stretches.Contain(all, t) || all.Any(s => s.BeginNs == t))
            .Select(t => new Stretch(t - windowNs, t + windowNs + 1)));
        var record = new Stretch(0, Math.Max(0, clock.DeviceNs(time.DurationNs)));
        List<Stretch> after = [.. all.Select(s => s with { BeginNs = s.BeginNs + RequirementPart.Ns(requirement.GraceS) }).Where(s => s.LengthNs > 0)];
        List<Stretch> part = Stretches.Both(Stretches.Both(after, [record]), [RequirementPart.Of(requirement)]);
        foreach (Stretch stretch in Stretches.Without(part, outside))
        {
            yield return RequirementPart.Row(requirement, AcceptanceRule.None, stretch);
        }
    }

    // Where truth has nothing for longer than a pause that is still a rhythm. A reading may stand for as long as that after the last beat; a mark may not.
    private static IEnumerable<Stretch> Absent(PlannedRequirement requirement, CaseTime time, CaseTruth truth)
    {
        bool isEvent = JudgedKinds.Events.Contains(requirement.Kind);
        IReadOnlyList<TruthEvent>? beats = isEvent ? truth.Of(requirement.Kind, requirement.Channel) : ReadableBeats(requirement, truth);
        if (beats is null)
        {
            yield break;
        }

        long last = 0;
        for (int i = 0; i <= beats.Count; i++)
        {
            long next = i < beats.Count ? beats[i].TimeNs : time.DurationNs;
            if (next - last > ReadingRows.LongestPauseNs)
            {
                yield return new Stretch(last + (isEvent ? 0 : ReadingRows.LongestPauseNs), next);
            }

            last = next;
        }
    }

    private static IReadOnlyList<TruthEvent>? ReadableBeats(PlannedRequirement requirement, CaseTruth truth) => requirement.Kind switch
    {
        MarkKind.SdnnMs or MarkKind.RmssdMs => truth.Beats(ChannelName.Ecg),
        MarkKind.ArrivalSpreadMs or MarkKind.PressureTrendMmhg => truth.Of(MarkKind.PatMs, requirement.Channel),
        _ when JudgedKinds.Readings.Contains(requirement.Kind) => new ReadingSeries(requirement, truth).Beats,
        _ => null,
    };

    private static Stretch Device(Stretch body, in ChannelDelay clock) => new(clock.DeviceNs(body.BeginNs), clock.DeviceNs(body.EndNs));
}
