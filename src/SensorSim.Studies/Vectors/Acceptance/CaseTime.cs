// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Scoring;
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>What is known of the time of a case: its channels, their clocks, and which stretches of them are scored. All stretches in body time.</summary>
/// <remarks>Scored is what the scorer scores, see <see cref="ScoringOptions"/>, less the stretches that the plan withholds.</remarks>
internal sealed class CaseTime
{
    private const double NsPerS = 1e9;
    private static readonly ChannelName[] s_lights = [ChannelName.Infrared, ChannelName.Green, ChannelName.Red];

    private readonly Dictionary<ChannelName, ChannelDelay> _delays = [];
    private readonly Dictionary<ChannelName, List<Stretch>> _unusable = [];

    public CaseTime(PlannedCase planned, IReadOnlyCollection<AcquisitionRow> rows)
    {
        foreach (ChannelName channel in rows.Select(r => r.Channel).Distinct().Order())
        {
            _delays.Add(channel, RecordClocks.DelayOf(channel, rows, "acquisition.csv"));
        }

        DurationNs = rows.Where(r => r.Item == AcquisitionItems.ClockSegmentPpm && r.EndNs > 0).Max(r => r.EndNs) ?? (long)Math.Round(planned.DurationS * NsPerS);
        LeadInNs = ScoredSpan.DefaultLeadInNs(DurationNs);
        Withheld = [.. planned.Withhold.Select(w => new Stretch((long)Math.Round(w.FromS * NsPerS), (long)Math.Round(w.ToS * NsPerS)))];
        foreach ((ChannelName channel, ChannelDelay delay) in _delays)
        {
            _unusable.Add(channel, Stretches.Joined(rows
                .Where(r => r.Channel == channel && r.IsUnusable)
                .Select(r => new Stretch(delay.BodyNs(r.BeginNs), delay.BodyNs(r.EndNs ?? DurationNs)))));
        }
    }

    /// <summary>Length of the record [ns].</summary>
    public long DurationNs { get; }

    /// <summary>Lead-in that is not scored [ns].</summary>
    public long LeadInNs { get; }

    /// <summary>Stretches that the plan withholds, nominal device time.</summary>
    public IReadOnlyList<Stretch> Withheld { get; }

    public bool Has(ChannelName channel) => _delays.ContainsKey(channel);

    /// <summary>The light that stands for all: infrared is the usual one. Null without any.</summary>
    public ChannelName? Light => s_lights.Where(Has).Select(c => (ChannelName?)c).FirstOrDefault();

    public ChannelDelay ClockOf(ChannelName channel) => _delays.TryGetValue(channel, out ChannelDelay delay) ? delay : new ChannelDelay(channel);

    /// <summary>Unusable stretches of what a kind of answer is made of.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="channel">Channel of the answers; null: any.</param>
    public List<Stretch> Unusable(MarkKind kind, ChannelName? channel)
    {
        List<ChannelName> needed = Needed(kind, channel, out bool isAnyEnough);
        IEnumerable<List<Stretch>> each = needed.Select(c => _unusable.GetValueOrDefault(c) ?? []);
        return isAnyEnough
            ? each.Aggregate((List<Stretch>?)null, (all, own) => all is null ? own : Stretches.Both(all, own)) ?? []
            : Stretches.Joined(each.SelectMany(s => s));
    }

    /// <summary>Stretches in which answers of a kind are scored.</summary>
    public List<Stretch> Scored(MarkKind kind, ChannelName? channel) => Stretches.Without(Span(kind, channel), Unscored(kind, channel));

    /// <summary>Stretches between lead-in and last second in which nothing need be given: unusable, or withheld by the plan.</summary>
    public List<Stretch> Silent(MarkKind kind, ChannelName? channel) => Stretches.Both(Span(kind, channel), Unscored(kind, channel));

    private List<Stretch> Unscored(MarkKind kind, ChannelName? channel)
    {
        ChannelDelay clock = ClockChannel(kind, channel) is ChannelName own ? ClockOf(own) : default;
        return Stretches.Joined(Unusable(kind, channel).Concat(Withheld.Select(w => new Stretch(clock.BodyNs(w.BeginNs), clock.BodyNs(w.EndNs)))));
    }

    // From the lead-in to the last second.
    private List<Stretch> Span(MarkKind kind, ChannelName? channel)
    {
        List<ChannelName> needed = Needed(kind, channel, out bool isAnyEnough);
        var spans = needed.Select(c => ScoredOf(ClockOf(c))).ToList();
        if (spans.Count == 0)
        {
            return [];
        }

        var span = new Stretch(
            isAnyEnough ? spans.Min(s => s.BeginNs) : spans.Max(s => s.BeginNs), isAnyEnough ? spans.Max(s => s.EndNs) : spans.Min(s => s.EndNs));
        return span.LengthNs <= 0 ? [] : [span];
    }

    /// <summary>The channel whose clock answers of a kind are given in.</summary>
    public ChannelName? ClockChannel(MarkKind kind, ChannelName? channel) =>
        Needed(kind, channel, out _) is [ChannelName first, ..] ? first : null;

    // The channels that an answer is made of, its own first; of a fused one any of them is enough.
    private List<ChannelName> Needed(MarkKind kind, ChannelName? channel, out bool isAnyEnough)
    {
        var light = new List<ChannelName>();
        if (Light is ChannelName usual)
        {
            light.Add(usual);
        }

        var ecg = new List<ChannelName>();
        if (Has(ChannelName.Ecg))
        {
            ecg.Add(ChannelName.Ecg);
        }

        isAnyEnough = kind == MarkKind.HeartRateFusedBpm || (channel is null && !TruthChannels.IsOfLight(kind) && !TruthChannels.IsOfEcg(kind));
        if (TruthChannels.IsJoint(kind))
        {
            return [.. (channel is ChannelName own && own != ChannelName.Ecg && Has(own) ? [own] : light), .. ecg];
        }

        if (isAnyEnough)
        {
            return [.. ecg, .. light];
        }

        return channel is ChannelName named ? Has(named) ? [named] : [] : TruthChannels.IsOfLight(kind) ? light : ecg;
    }

    private Stretch ScoredOf(in ChannelDelay clock)
    {
        const long TailNs = 1_000_000_000;
        return new Stretch(Math.Max(LeadInNs, clock.BodyNs(LeadInNs)), Math.Min(DurationNs - TailNs, clock.BodyNs(DurationNs) - TailNs));
    }
}
