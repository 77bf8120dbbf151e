// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring;

/// <summary>One matcher per kind of event and channel; the expected ones from the start, others with their first event.</summary>
internal sealed class RowTable
{
    public const int ChannelCount = 8;
    private static readonly int s_kindCount = MarkKinds.All.Count;
    private readonly EventMatcher?[] _matchers = new EventMatcher?[ChannelCount * s_kindCount];
    private readonly EventMatcher?[] _list = new EventMatcher?[ChannelCount * s_kindCount];
    private readonly bool[] _isExpected = new bool[ChannelCount * s_kindCount];
    private readonly ScoredSpan?[] _spans;
    private readonly ScoringOptions _options;
    private readonly Shutdowns?[] _shutdowns;
    private int _listCount;
    private Action<JudgedEvent>? _judged;
    private bool _isReserved;

    public RowTable(ScoredSpan?[] spans, Shutdowns?[] shutdowns, ScoringOptions options)
    {
        _spans = spans;
        _shutdowns = shutdowns;
        _options = options;
        Expected = [.. (options.ExpectedRows ?? DefaultRows()).Where(row => spans[(int)row.Channel] is not null)];
        foreach (ExpectedRow row in Expected)
        {
            _isExpected[Index(row.Channel, row.Kind)] = true;
            _ = Get(row.Channel, row.Kind);
        }
    }

    public IReadOnlyList<ExpectedRow> Expected { get; }

    /// <summary>Told of each event once it is judged; null to tell nobody.</summary>
    public Action<JudgedEvent>? Judged
    {
        get => _judged;
        set
        {
            _judged = value;
            for (int index = 0; index < _matchers.Length; index++)
            {
                Tell(index);
            }
        }
    }

    public long EarlyClosingCount => _matchers.Sum(m => m?.EarlyClosingCount ?? 0);

    public long LateCount => _matchers.Sum(m => m?.LateCount ?? 0);

    /// <summary>Whether a kind is a point in time that truth and detector can both give.</summary>
    public static bool IsScoredEvent(MarkKind kind) => kind <= MarkKind.DiastolicPeak;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public EventMatcher Get(ChannelName channel, MarkKind kind) =>
        _matchers[Index(channel, kind)] ?? Create(channel, kind);

    public void AdvanceTo(long timeNs)
    {
        for (int i = 0; i < _listCount; i++)
        {
            _list[i]!.AdvanceTo(timeNs);
        }
    }

    /// <summary>Takes all the room that rows will ever need: of those to come with their first event.</summary>
    public void Reserve()
    {
        _isReserved = true;
        for (int index = 0; index < _matchers.Length; index++)
        {
            _matchers[index]?.Reserve(_isExpected[index]);
        }
    }

    public void Finish()
    {
        for (int i = 0; i < _listCount; i++)
        {
            _list[i]!.Finish();
        }
    }

    /// <summary>Rows that the detector gave, and expected ones that truth has.</summary>
    public IReadOnlyList<EventScore> Scores(ChannelDelay[] delays)
    {
        var rows = new List<EventScore>();
        for (int index = 0; index < _matchers.Length; index++)
        {
            if (_matchers[index] is EventMatcher m && (m.DetectionCount > 0 || (_isExpected[index] && m.TruthCount > 0)))
            {
                int channel = index / s_kindCount;
                var kind = (MarkKind)(index % s_kindCount);
                rows.Add(new EventScore((ChannelName)channel, kind, m.Tally, m.DetectionCount, delays[channel], _shutdowns[channel]));
            }
        }

        return rows;
    }

    private static ExpectedRow[] DefaultRows() =>
    [
        new(ChannelName.Ecg, MarkKind.RPeak),
        new(ChannelName.Red, MarkKind.PulseFootTangent),
        new(ChannelName.Infrared, MarkKind.PulseFootTangent),
        new(ChannelName.Green, MarkKind.PulseFootTangent),
    ];

    private static int Index(ChannelName channel, MarkKind kind) => ((int)channel * s_kindCount) + (int)kind;

    private EventMatcher Create(ChannelName channel, MarkKind kind)
    {
        var matcher = new EventMatcher(_spans[(int)channel]!, _options);
        int index = Index(channel, kind);
        matcher.Tally.Shutdowns = _shutdowns[(int)channel];
        _matchers[index] = matcher;
        _list[_listCount++] = matcher;
        Tell(index);
        if (_isReserved)
        {
            matcher.Reserve(_isExpected[index]);
        }

        return matcher;
    }

    // A row calls nobody when nobody listens: there are some thirty, and each has every beat.
    private void Tell(int index)
    {
        if (_matchers[index] is EventMatcher matcher)
        {
            var channel = (ChannelName)(index / s_kindCount);
            var kind = (MarkKind)(index % s_kindCount);
            matcher.Tally.Judged = _judged is not Action<JudgedEvent> told
                ? null
                : (truth, detection, isScored, label) => told(new JudgedEvent(channel, kind, truth, detection, isScored, label));
        }
    }
}
