// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Scoring.Statistics.Resampling;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;
using Interval = SensorSim.Scoring.Statistics.Interval;

namespace SensorSim.Testing;

/// <summary>A figure of one row over several runs, pooled as studies pool it (<see cref="RunPool"/>): each event, reading and second weighs the same.</summary>
/// <remarks>
/// The 95th percentile of latencies is that of the worst run. Interval of a share: of one run Wilson's; of several the wider ends of Wilson's over the
/// pooled counts and of a bootstrap (BCa) of whole runs, because events of one run are not independent of each other, and because resampling runs
/// without any fault says nothing.
/// </remarks>
internal sealed class PooledFigure
{
    private static readonly NumberKey s_key = new()
    {
        Name = "requirements.test", Meaning = "Limit of a test.", Source = "The test.", Minimum = double.MinValue, Maximum = double.MaxValue, Default = 0,
    };

    private readonly Figure _figure;
    private readonly ChannelName _channel;
    private readonly MarkKind _kind;
    private readonly IReadOnlyList<ScoredRun> _runs;
    private readonly RunRow[] _rows;

    public PooledFigure(Figure figure, ChannelName channel, MarkKind kind, IReadOnlyList<ScoredRun> runs)
    {
        _figure = figure;
        _channel = channel;
        _kind = kind;
        _runs = runs;
        _rows = [.. runs.Select((r, i) => RunRow.Of(i, r.Outcome))];
        Value = Of(_rows, runs);
    }

    /// <summary>The figure; null when it is undefined.</summary>
    public double? Value { get; }

    /// <summary>The figure of one run.</summary>
    public double? OfRun(int run) => Of([_rows[run]], [_runs[run]]);

    /// <summary>Interval of 95 %; null when the figure is undefined or has none.</summary>
    public Interval? Range()
    {
        Interval? counted = Counts() is (long successes, long trials) ? Proportions.Wilson(successes, trials) : null;
        if (_rows.Length < 2)
        {
            return counted;
        }

        Interval? resampled = Bootstrap.Of(_rows.Length, chosen => Of([.. chosen.Select(i => _rows[i])], [.. chosen.Select(i => _runs[i])]))?.Bca();
        return counted is Interval c && resampled is Interval r ? new Interval(Math.Min(c.Low, r.Low), Math.Max(c.High, r.High)) : counted ?? resampled;
    }

    /// <summary>Whether a limit is kept; an undefined figure keeps none.</summary>
    public bool Keeps(in FigureLimit limit)
    {
        if (!limit.IsCertain)
        {
            return Keeps(limit, Value);
        }

        return Range() is Interval interval && Keeps(limit, interval.Low) && Keeps(limit, interval.High);
    }

    /// <summary>Whether one run alone keeps a limit; certainly: the interval of that run must.</summary>
    public bool KeepsInRun(in FigureLimit limit, int run) =>
        limit.IsCertain ? new PooledFigure(_figure, _channel, _kind, [_runs[run]]).Keeps(limit) : Keeps(limit, OfRun(run));

    /// <summary>Interval of one run alone; null when it has none.</summary>
    public Interval? RangeOfRun(int run) => new PooledFigure(_figure, _channel, _kind, [_runs[run]]).Range();

    /// <summary>Whether a value keeps a limit.</summary>
    public static bool Keeps(in FigureLimit limit, double? value) =>
        value is double v && (limit.Figure.IsLeast ? v >= limit.Value : Math.Abs(v) <= limit.Value);

    // Successes and trials of a share that counts something.
    private (long Successes, long Trials)? Counts()
    {
        DetectionCounts counts = DetectionCounts.Gross(_rows.Select(r => r.Find(_channel, _kind)?.Counts ?? default));
        long judged = _rows.Sum(r => r.FindReading(_channel, _kind)?.JudgedCount ?? 0);
        long wrong = _rows.Sum(r => r.FindReading(_channel, _kind)?.Wrong ?? 0);
        return _figure.Required switch
        {
            RequiredFigure.Sensitivity => (counts.Matched, counts.Reference),
            RequiredFigure.PositivePredictivity => (counts.Matched, counts.Matched + counts.Extra),
            RequiredFigure.ReadingWrongShare => (wrong, judged),
            _ => null,
        };
    }

    private double? Of(RunRow[] rows, IReadOnlyList<ScoredRun> runs)
    {
        if (_figure.Required is not RequiredFigure required)
        {
            return Latest(runs);
        }

        var pool = new RunPool(new RequirementDefinition(s_key, _kind, required), _channel);
        foreach (RunRow row in rows)
        {
            pool.Add(row);
        }

        return pool.Figure;
    }

    private double? Latest(IReadOnlyList<ScoredRun> runs) => runs.Max(r => _figure == Figure.EventLatencyP95
        ? r.Outcome.Report!.Find(_channel, _kind)?.LatencyP95Ms
        : r.Outcome.Report!.FindReading(_channel, _kind)?.LatencyP95Ms);
}
