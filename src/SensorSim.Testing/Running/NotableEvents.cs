// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>The first events of each row that went wrong: enough to look at, however long the run.</summary>
internal sealed class NotableEvents
{
    private const int MostEach = 4;

    private readonly Dictionary<(ChannelName Channel, MarkKind Kind), Row> _rows = [];

    /// <summary>Missed events of a row: times of truth in body time [ns], ascending.</summary>
    public IReadOnlyList<long> Missed(ChannelName channel, MarkKind kind) => Find(channel, kind)?.Missed ?? [];

    /// <summary>Extra detections of a row: times in body time [ns].</summary>
    public IReadOnlyList<long> Extra(ChannelName channel, MarkKind kind) => Find(channel, kind)?.Extra ?? [];

    /// <summary>Wrong readings of a row.</summary>
    public IReadOnlyList<JudgedReading> Wrong(ChannelName channel, MarkKind kind) => Find(channel, kind)?.Wrong ?? [];

    /// <summary>Listens to a scorer.</summary>
    public void ListenTo(Scorer scorer)
    {
        scorer.EventJudged = Take;
        scorer.ReadingJudged = Take;
    }

    private void Take(JudgedEvent judged)
    {
        if (!judged.IsScored || (judged.TruthNs is not null && judged.DetectionNs is not null))
        {
            return;
        }

        Row row = Get(judged.Channel, judged.Kind);
        List<long> list = judged.TruthNs is null ? row.Extra : row.Missed;
        if (list.Count < MostEach)
        {
            list.Add(judged.TruthNs ?? judged.DetectionNs!.Value);
        }
    }

    private void Take(JudgedReading judged)
    {
        if (judged.IsWrong && judged.Place != Place.Outside && Get(judged.Mark.Channel, judged.Mark.Kind).Wrong is { Count: < MostEach } list)
        {
            list.Add(judged);
        }
    }

    private Row? Find(ChannelName channel, MarkKind kind) => _rows.GetValueOrDefault((channel, kind));

    private Row Get(ChannelName channel, MarkKind kind)
    {
        if (!_rows.TryGetValue((channel, kind), out Row? row))
        {
            row = new Row();
            _rows.Add((channel, kind), row);
        }

        return row;
    }

    private sealed class Row
    {
        public List<long> Missed { get; } = [];

        public List<long> Extra { get; } = [];

        public List<JudgedReading> Wrong { get; } = [];
    }
}
