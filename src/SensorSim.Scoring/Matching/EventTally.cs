// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Matching;

/// <summary>Counts the outcomes of matching by place, and sums the timing errors.</summary>
/// <remarks>
/// The rules: a truth counts by its own place, and its detection goes with it, also across a border. A truth outside the
/// scored places is neither found nor missed; a detection counts as extra only when it stands in a scored place and pairs
/// with nothing. An optional truth is neither found nor missed, and the detection it pairs with is neither right nor wrong.
/// An ambiguous truth is found or missed like any other, but its timing is not looked at.
/// </remarks>
public sealed class EventTally
{
    private const long BinWidthNs = 100_000;

    // Latencies in steps of 10 ms up to 20 s: search-back and readings of half a minute's events are no longer on their way.
    private const long LatencyStepNs = 10_000_000;
    private const long LongestLatencyNs = 20_000_000_000;

    private readonly ScoredSpan _span;
    private readonly long[] _foundOfClass = new long[HeartBeatClasses.All.Count];
    private readonly long[] _missedOfClass = new long[HeartBeatClasses.All.Count];

    internal EventTally(ScoredSpan span, long windowNs)
    {
        _span = span;
        Histogram = new ErrorHistogram(BinWidthNs, Math.Max(windowNs, BinWidthNs), 1e-6);
        Silence = new SilenceTally(span);
    }

    /// <summary>Scored truths that pair with a detection.</summary>
    public long Matched { get; private set; }

    /// <summary>Scored truths that do not.</summary>
    public long Missed { get; private set; }

    /// <summary>Detections in scored places that pair with nothing.</summary>
    public long Extra { get; private set; }

    /// <summary>Optional truths in scored places that pair with a detection.</summary>
    public long OptionalMatched { get; private set; }

    /// <summary>Optional truths in scored places that do not.</summary>
    public long OptionalUnmatched { get; private set; }

    /// <summary>Truths in the lead-in or the last second.</summary>
    public long OutsideTruth { get; private set; }

    /// <summary>Truths in unusable stretches.</summary>
    public long UnusableTruth { get; private set; }

    /// <summary>Detections that pair with a truth of the lead-in or the last second, or stand there alone.</summary>
    public long OutsideDetections { get; private set; }

    /// <summary>Detections that pair with a truth of an unusable stretch, or stand there alone.</summary>
    public long UnusableDetections { get; private set; }

    /// <summary>Timing errors (detection − truth) of matched truths that are not ambiguous [ms].</summary>
    public ErrorSums TimingMs { get; } = new(1e-6);

    /// <summary>The same errors in bins of 0.1 ms [ms].</summary>
    public ErrorHistogram Histogram { get; }

    /// <summary>From event to emission of matched detections, in bins of 10 ms [ms].</summary>
    public ErrorHistogram Latency { get; } = new(LatencyStepNs, LongestLatencyNs, 1e-6);

    /// <summary>Errors of intervals between detections of neighbouring truths.</summary>
    public IntervalErrors Intervals { get; } = new();

    /// <summary>Pauses between detections in which truth was missed.</summary>
    public SilenceTally Silence { get; }

    /// <summary>Scored truths missed while the detector itself declared that it does not work.</summary>
    public long MissedInShutdown { get; private set; }

    /// <summary>Told of each pair, truth and detection once it is judged; null tells nobody.</summary>
    internal JudgedHandler? Judged { get; set; }

    /// <summary>When the detector declares that it does not work; null when nobody knows.</summary>
    internal Shutdowns? Shutdowns { get; set; }

    /// <summary>Takes an event that is judged.</summary>
    internal delegate void JudgedHandler(long? truthNs, long? detectionNs, bool isScored, BeatClass label);

    /// <summary>Scored truths of a class, found and missed.</summary>
    /// <param name="heartBeatClass">The class.</param>
    public ClassCounts OfClass(HeartBeatClass heartBeatClass) =>
        new(heartBeatClass, _foundOfClass[(int)heartBeatClass], _missedOfClass[(int)heartBeatClass]);

    internal void Finish() => Silence.Finish();

    /// <summary>Takes the room of every bin now.</summary>
    internal void Reserve()
    {
        Histogram.Reserve(isSigned: true);
        Latency.Reserve(isSigned: false);
    }

    internal void AddPair(in PendingEvent truth, in PendingEvent detection)
    {
        long truthNs = truth.TimeNs;
        TruthFlags flags = truth.Flags;
        long detectionNs = detection.TimeNs;
        Place place = _span.PlaceOf(truthNs);
        bool isScored = place == Place.Scored && (flags & TruthFlags.Optional) == 0;
        Judged?.Invoke(truthNs, detectionNs, isScored, truth.Label);
        Silence.Detected(detectionNs);
        Intervals.AddPair(truthNs, detectionNs, isScored && (flags & TruthFlags.Ambiguous) == 0);
        if (place != Place.Scored)
        {
            AddApart(place, truths: 1, detections: 1);
        }
        else if ((flags & TruthFlags.Optional) != 0)
        {
            OptionalMatched++;
        }
        else
        {
            Matched++;
            _foundOfClass[(int)HeartBeatClasses.Of(truth.Label)]++;
            if (detection.LatencyNs >= 0)
            {
                Latency.Add(detection.LatencyNs);
            }

            if ((flags & TruthFlags.Ambiguous) == 0)
            {
                TimingMs.Add(detectionNs - truthNs);
                Histogram.Add(detectionNs - truthNs);
            }
        }
    }

    internal void AddUnmatchedTruth(in PendingEvent truth)
    {
        long truthNs = truth.TimeNs;
        TruthFlags flags = truth.Flags;
        Place place = _span.PlaceOf(truthNs);
        Judged?.Invoke(truthNs, null, place == Place.Scored && (flags & TruthFlags.Optional) == 0, truth.Label);
        Intervals.Break();
        if (place != Place.Scored)
        {
            AddApart(place, truths: 1, detections: 0);
        }
        else if ((flags & TruthFlags.Optional) != 0)
        {
            OptionalUnmatched++;
        }
        else
        {
            Missed++;
            _missedOfClass[(int)HeartBeatClasses.Of(truth.Label)]++;
            MissedInShutdown += Shutdowns is { IsDeclared: true } shutdowns && shutdowns.IsShut(truthNs) ? 1 : 0;
            Silence.Missed();
        }
    }

    internal void AddUnmatchedDetection(long detectionNs)
    {
        Place place = _span.PlaceOf(detectionNs);
        Judged?.Invoke(null, detectionNs, place == Place.Scored, BeatClass.None);
        Silence.Detected(detectionNs);
        Intervals.Break();
        if (place == Place.Scored)
        {
            Extra++;
        }
        else
        {
            AddApart(place, truths: 0, detections: 1);
        }
    }

    private void AddApart(Place place, int truths, int detections)
    {
        if (place == Place.Outside)
        {
            OutsideTruth += truths;
            OutsideDetections += detections;
        }
        else
        {
            UnusableTruth += truths;
            UnusableDetections += detections;
        }
    }
}
