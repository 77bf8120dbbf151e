// SPDX-License-Identifier: MIT
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
    private readonly ScoredSpan _span;

    internal EventTally(ScoredSpan span, long windowNs)
    {
        _span = span;
        Histogram = new ErrorHistogram(BinWidthNs, Math.Max(windowNs, BinWidthNs), 1e-6);
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

    /// <summary>Told of each pair, truth and detection once it is judged: truth, detection, whether it counts; null tells nobody.</summary>
    internal Action<long?, long?, bool>? Judged { get; set; }

    internal void AddPair(long truthNs, TruthFlags flags, long detectionNs)
    {
        Place place = _span.PlaceOf(truthNs);
        Judged?.Invoke(truthNs, detectionNs, place == Place.Scored && (flags & TruthFlags.Optional) == 0);
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
            if ((flags & TruthFlags.Ambiguous) == 0)
            {
                TimingMs.Add(detectionNs - truthNs);
                Histogram.Add(detectionNs - truthNs);
            }
        }
    }

    internal void AddUnmatchedTruth(long truthNs, TruthFlags flags)
    {
        Place place = _span.PlaceOf(truthNs);
        Judged?.Invoke(truthNs, null, place == Place.Scored && (flags & TruthFlags.Optional) == 0);
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
        }
    }

    internal void AddUnmatchedDetection(long detectionNs)
    {
        Place place = _span.PlaceOf(detectionNs);
        Judged?.Invoke(null, detectionNs, place == Place.Scored);
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
