// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring;

/// <summary>Scores truth and answers that are already there, for example in two files, reading each once.</summary>
public static class OfflineScoring
{
    private const long StepNs = 1_000_000_000;

    /// <summary>Feeds everything in order of time and closes the scorer.</summary>
    /// <param name="scorer">A scorer that has been fed nothing yet.</param>
    /// <param name="truth">Truth, roughly ascending in time.</param>
    /// <param name="marks">Answers in the order in which they were given.</param>
    /// <param name="unusable">Unusable stretches in device time, in order of their begin; null when there are none.</param>
    /// <returns>The scores.</returns>
    public static ScoreReport ScoreAll(
        this Scorer scorer, IEnumerable<TruthEvent> truth, IEnumerable<TimedMark> marks, IEnumerable<UnusableStretch>? unusable = null)
    {
        ArgumentNullException.ThrowIfNull(scorer);
        ArgumentNullException.ThrowIfNull(truth);
        ArgumentNullException.ThrowIfNull(marks);
        using IEnumerator<TruthEvent> truths = truth.GetEnumerator();
        using IEnumerator<TimedMark> answers = marks.GetEnumerator();
        using IEnumerator<UnusableStretch> stretches = (unusable ?? []).GetEnumerator();
        bool hasTruth = truths.MoveNext();
        bool hasAnswer = answers.MoveNext();
        bool hasStretch = stretches.MoveNext();
        long reached = long.MinValue / 2;
        while (hasTruth || hasAnswer)
        {
            long truthNs = hasTruth ? truths.Current.TimeNs : long.MaxValue;
            long answerNs = hasAnswer ? GivenNs(scorer, answers.Current) : long.MaxValue;
            if (truthNs <= answerNs)
            {
                scorer.AddTruth(truths.Current);
                hasTruth = truths.MoveNext();
            }
            else
            {
                scorer.AddMark(answers.Current);
                hasAnswer = answers.MoveNext();
            }

            // The two lists may each lie apart from their own order; the holding time of the scorer covers that.
            long now = Math.Min(truthNs, answerNs);
            if (now - reached >= StepNs)
            {
                reached = now;
                AddStretchesUpTo(now);
                scorer.AdvanceTo(now);
            }
        }

        AddStretchesUpTo(long.MaxValue);
        return scorer.Finish();

        // With the events they cover, not all at once: room is for those of a while.
        void AddStretchesUpTo(long bodyNs)
        {
            for (; hasStretch && scorer.BodyNs(stretches.Current.Channel, stretches.Current.BeginNs) <= bodyNs; hasStretch = stretches.MoveNext())
            {
                scorer.AddUnusable(stretches.Current.Channel, stretches.Current.BeginNs, stretches.Current.EndNs);
            }
        }
    }

    // An answer that does not say when it was given counts as given at once. Clocks may run apart: answers stand in the order of device time,
    // so what is known then is what the clock that lags most has reached.
    private static long GivenNs(Scorer scorer, in TimedMark mark) =>
        scorer.EarliestBodyNs(Math.Max(mark.TimeNs, mark.EmittedTimeNs));
}

/// <summary>A stretch of a channel that is not scored.</summary>
/// <param name="Channel">Channel; one that the record does not have is ignored.</param>
/// <param name="BeginNs">Begin, device time of the channel [ns].</param>
/// <param name="EndNs">End, not included, device time of the channel [ns].</param>
public readonly record struct UnusableStretch(ChannelName Channel, long BeginNs, long EndNs);
