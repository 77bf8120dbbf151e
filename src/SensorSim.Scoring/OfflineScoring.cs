// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring;

/// <summary>Scores truth and answers that are already there, for example in two files, reading each once.</summary>
public static class OfflineScoring
{
    private const long StepNs = 1_000_000_000;

    /// <summary>Feeds everything in order of time and closes the scorer.</summary>
    /// <param name="scorer">A scorer that has been fed nothing yet.</param>
    /// <param name="truth">Truth, roughly ascending in time.</param>
    /// <param name="marks">Answers in the order in which they were given.</param>
    /// <returns>The scores.</returns>
    public static ScoreReport ScoreAll(this Scorer scorer, IEnumerable<TruthEvent> truth, IEnumerable<TimedMark> marks)
    {
        ArgumentNullException.ThrowIfNull(scorer);
        ArgumentNullException.ThrowIfNull(truth);
        ArgumentNullException.ThrowIfNull(marks);
        using IEnumerator<TruthEvent> truths = truth.GetEnumerator();
        using IEnumerator<TimedMark> answers = marks.GetEnumerator();
        bool hasTruth = truths.MoveNext();
        bool hasAnswer = answers.MoveNext();
        long reached = long.MinValue / 2;
        while (hasTruth || hasAnswer)
        {
            long truthNs = hasTruth ? truths.Current.TimeNs : long.MaxValue;
            long answerNs = hasAnswer ? GivenNs(answers.Current) : long.MaxValue;
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
                scorer.AdvanceTo(now);
            }
        }

        return scorer.Finish();
    }

    // An answer that does not say when it was given counts as given at once.
    private static long GivenNs(in TimedMark mark) => Math.Max(mark.TimeNs, mark.EmittedTimeNs);
}
