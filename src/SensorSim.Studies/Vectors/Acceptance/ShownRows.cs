// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>Rows of the rule shown: a mark soon after a stretch begins.</summary>
/// <remarks>
/// Stretches closer than <see cref="PauseNs"/> are one: a gate that is still shut is not shut again. One that is over before the time allowed asks
/// nothing, and neither does one of the acquisition that begins in the lead-in, where no gate need be open yet.
/// </remarks>
internal static class ShownRows
{
    /// <summary>Stretches closer than this are one [ns]: a gate takes some beats to open again.</summary>
    public const long PauseNs = 10_000_000_000;

    /// <summary>Episodes of arrhythmia shorter than this need not be shown [ns]; 30 s by EC57 (from memory).</summary>
    public const long LeastEpisodeNs = 30_000_000_000;

    /// <summary>A mark may stand this much before the stretch [ns]: at the last beat that was sound.</summary>
    public const long EarlyNs = 1_000_000_000;

    private const long LongestIntervalNs = 5_000_000_000;

    public static IEnumerable<AcceptanceRow> Of(PlannedRequirement requirement, CaseTime time, CaseTruth truth)
    {
        ChannelName? channel = time.ClockChannel(requirement.Kind, requirement.Channel);
        ChannelDelay clock = channel is ChannelName own ? time.ClockOf(own) : default;
        long withinNs = RequirementPart.Ns(requirement.WithinS ?? 0);
        foreach (long begin in Begins(requirement, time, truth, clock, withinNs))
        {
            yield return RequirementPart.Row(requirement, AcceptanceRule.Some, new Stretch(Math.Max(0, begin - EarlyNs), begin + withinNs + 1)) with
            {
                Low = requirement.Value ?? double.NaN,
                High = requirement.Value ?? double.NaN,
                EmittedByNs = begin + withinNs,
            };
        }
    }

    private static IEnumerable<long> Begins(PlannedRequirement requirement, CaseTime time, CaseTruth truth, ChannelDelay clock, long withinNs)
    {
        if (requirement.FromS is double from)
        {
            return [RequirementPart.Ns(from)];
        }

        bool isGate = requirement.Kind is MarkKind.GateShut or MarkKind.JointGateShut;
        IEnumerable<Stretch> known = isGate ? time.Unusable(requirement.Kind, requirement.Channel).Where(s => s.BeginNs < time.DurationNs)
            : requirement.Kind == MarkKind.IrregularRhythm ? Episodes(truth) : [];
        var derived = known.Select(s => new Stretch(clock.DeviceNs(s.BeginNs), clock.DeviceNs(s.EndNs))).ToList();
        long open = isGate ? clock.DeviceNs(time.LeadInNs) : long.MinValue;
        return Stretches.Joined(derived.Concat(time.Withheld), isGate ? PauseNs : 0)
            .Where(s => s.LengthNs >= withinNs && (s.BeginNs >= open || time.Withheld.Any(w => w.BeginNs == s.BeginNs)))
            .Select(s => s.BeginNs);
    }

    // From the first to the last of neighbouring beats out of fibrillation or flutter.
    private static IEnumerable<Stretch> Episodes(CaseTruth truth)
    {
        IReadOnlyList<TruthEvent> beats = truth.Of(MarkKind.RPeak, ChannelName.Ecg);
        for (int first = 0; first < beats.Count;)
        {
            int last = first;
            while (last < beats.Count && beats[last].Label == BeatClass.AtrialArrhythmia
                && (last == first || beats[last].TimeNs - beats[last - 1].TimeNs <= LongestIntervalNs))
            {
                last++;
            }

            if (last > first && beats[last - 1].TimeNs - beats[first].TimeNs >= LeastEpisodeNs)
            {
                yield return new Stretch(beats[first].TimeNs, beats[last - 1].TimeNs);
            }

            first = Math.Max(last, first + 1);
        }
    }
}
