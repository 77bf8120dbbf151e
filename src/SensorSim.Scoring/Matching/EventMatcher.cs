// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Matching;

/// <summary>Beat-by-beat matching of one kind of event in one channel: one to one, closest first, in constant memory.</summary>
/// <remarks>
/// <para>A truth and a detection may pair when they are at most one window apart, the window included. Of all such pairs the
/// closest is taken first, then the closest of what is left, and so on; of pairs equally far apart the one with the earlier
/// truth goes first, then the one with the earlier detection (of equal times: the one fed first).</para>
/// <para>Streaming gives the same pairs as matching everything at the end: a pair is closed when each is the other's closest
/// open partner and nothing that is still to come can lie within a window of either. That such mutual pairs, taken in any
/// order, are the closest-first pairs follows from the order of pairs being strict.</para>
/// <para>Every event takes part, also those in places that are not scored; the outcome is then counted by place, see
/// <see cref="EventTally"/>.</para>
/// </remarks>
public sealed class EventMatcher
{
    private readonly PendingEvents _truth;
    private readonly PendingEvents _detections;
    private readonly long _windowNs;
    private readonly long _holdingNs;
    private long _horizonNs = long.MinValue;
    private bool _isReserved;

    /// <summary>Creates a matcher.</summary>
    /// <param name="span">Which places are scored.</param>
    /// <param name="options">Window, holding time and capacities.</param>
    public EventMatcher(ScoredSpan span, ScoringOptions options)
    {
        ArgumentNullException.ThrowIfNull(span);
        ArgumentNullException.ThrowIfNull(options);
        options.Validate();
        _windowNs = options.WindowNs;
        _holdingNs = options.HoldingNs;
        _truth = new PendingEvents(options.TruthCapacity);
        _detections = new PendingEvents(options.DetectionCapacity);
        Tally = new EventTally(span, options.WindowNs);
    }

    /// <summary>What has been counted so far; final after <see cref="Finish"/>.</summary>
    public EventTally Tally { get; }

    /// <summary>Truth fed so far.</summary>
    public long TruthCount { get; private set; }

    /// <summary>Detections fed so far.</summary>
    public long DetectionCount { get; private set; }

    /// <summary>
    /// Times that the capacity forced events to be closed before their holding time was over. Nothing is dropped, but a later
    /// detection may have found its truth already closed.
    /// </summary>
    public long EarlyClosingCount { get; private set; }

    /// <summary>Events fed after everything of their time had been closed; they could pair only with what was still open.</summary>
    public long LateCount { get; private set; }

    /// <summary>Adds a truth.</summary>
    /// <param name="timeNs">Its time [ns], roughly ascending.</param>
    /// <param name="flags">How it may be scored.</param>
    /// <param name="label">Class of its beat.</param>
    public void AddTruth(long timeNs, TruthFlags flags = TruthFlags.None, BeatClass label = BeatClass.None)
    {
        TruthCount++;
        Add(_truth, new PendingEvent { TimeNs = timeNs, Flags = flags, Label = label });
    }

    /// <summary>Adds a detection.</summary>
    /// <param name="timeNs">Its time [ns], roughly ascending; one found by searching back may be late by the holding time.</param>
    public void AddDetection(long timeNs) => AddDetection(timeNs, -1);

    /// <summary>Adds a detection.</summary>
    /// <param name="timeNs">Its time [ns], roughly ascending; one found by searching back may be late by the holding time.</param>
    /// <param name="latencyNs">From the event to its emission [ns]; negative when unknown.</param>
    public void AddDetection(long timeNs, long latencyNs)
    {
        if (DetectionCount++ == 0 && _isReserved)
        {
            ReserveForPairs();
        }

        Add(_detections, new PendingEvent { TimeNs = timeNs, LatencyNs = latencyNs });
    }

    /// <summary>States that nothing older than a time minus the holding time will be fed any more.</summary>
    /// <param name="timeNs">Time reached [ns].</param>
    public void AdvanceTo(long timeNs) => CloseUpTo(timeNs - _holdingNs);

    /// <summary>Closes everything.</summary>
    public void Finish()
    {
        CloseUpTo(long.MaxValue);
        Tally.Finish();
    }

    /// <summary>Takes all the room that the row will ever need: now for truth, for what comes of detections with the first of them.</summary>
    /// <param name="isExpected">Whether detections are sure to come: then for them too.</param>
    internal void Reserve(bool isExpected)
    {
        _isReserved = true;
        _truth.Reserve();
        if (isExpected || DetectionCount > 0)
        {
            ReserveForPairs();
        }
    }

    private void ReserveForPairs()
    {
        _detections.Reserve();
        Tally.Reserve();
    }

    private void Add(PendingEvents list, in PendingEvent item)
    {
        if (item.TimeNs < _horizonNs)
        {
            LateCount++;
        }

        if (list.IsFull)
        {
            MakeRoom(list);
        }

        list.Insert(item);
    }

    private void MakeRoom(PendingEvents full)
    {
        EarlyClosingCount++;
        CloseUpTo(full[full.Count - 1].TimeNs);
        if (full.IsFull)
        {
            // Everything lies within one window, or in one long chain: close it all as it stands, but not the time to come.
            Close(long.MaxValue);
        }
    }

    private void CloseUpTo(long horizonNs)
    {
        if (horizonNs > _horizonNs)
        {
            _horizonNs = horizonNs;
            Close(horizonNs);
        }
    }

    private void Close(long horizonNs)
    {
        // What lies before this has every possible partner already here.
        long knownBeforeNs = horizonNs - _windowNs;
        while (true)
        {
            _truth.DropClosed();
            _detections.DropClosed();
            if (_detections.Count == 0)
            {
                CloseTruth(knownBeforeNs);
                return;
            }

            bool truthFirst = _truth.Count > 0 && _truth[0].TimeNs <= _detections[0].TimeNs;
            if (!TryCloseOne(truthFirst, knownBeforeNs))
            {
                return;
            }
        }
    }

    // Without any detection nothing pairs. Most rows of truth are so always: detectors give few kinds.
    private void CloseTruth(long knownBeforeNs)
    {
        while (_truth.Count > 0 && _truth[0].TimeNs < knownBeforeNs)
        {
            PendingEvent alone = _truth.TakeOldest();
            Tally.AddUnmatchedTruth(alone);
            _truth.DropClosed();
        }
    }

    // Starts at the oldest event and goes on to ever closer pairs until two are each other's closest.
    private bool TryCloseOne(bool isTruth, long knownBeforeNs)
    {
        int previous = -1;
        int current = 0;
        while (true)
        {
            PendingEvents own = isTruth ? _truth : _detections;
            PendingEvents other = isTruth ? _detections : _truth;
            if (own[current].TimeNs >= knownBeforeNs)
            {
                return false;
            }

            int next = other.Closest(own[current].TimeNs, _windowNs);
            if (next < 0)
            {
                CloseAlone(isTruth, current);
                return true;
            }

            if (next == previous)
            {
                ClosePair(isTruth ? current : next, isTruth ? next : current);
                return true;
            }

            previous = current;
            current = next;
            isTruth = !isTruth;
        }
    }

    private void CloseAlone(bool isTruth, int index)
    {
        ref PendingEvent item = ref (isTruth ? _truth : _detections)[index];
        item.IsClosed = true;
        if (isTruth)
        {
            Tally.AddUnmatchedTruth(item);
        }
        else
        {
            Tally.AddUnmatchedDetection(item.TimeNs);
        }
    }

    private void ClosePair(int truthIndex, int detectionIndex)
    {
        ref PendingEvent truth = ref _truth[truthIndex];
        ref PendingEvent detection = ref _detections[detectionIndex];
        truth.IsClosed = true;
        detection.IsClosed = true;
        Tally.AddPair(truth, detection);
    }
}
