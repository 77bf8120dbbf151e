// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;
using SensorSim.Studies.Running;

namespace SensorSim.Testing;

/// <summary>Hands answers that are already there to a scorer while the stream passes, each once the time has come at which it was given.</summary>
internal sealed class AnswerFeed : IRunSink, IDisposable
{
    private readonly IEnumerator<TimedMark> _answers;
    private readonly Scorer _scorer;
    private readonly TickClock _clock;
    private readonly long _endTick;
    private bool _hasAnswer;

    /// <summary>Creates a feed.</summary>
    /// <param name="answers">The answers, in the order in which they were given.</param>
    /// <param name="scorer">Takes them.</param>
    /// <param name="stream">The stream that passes.</param>
    public AnswerFeed(IEnumerable<TimedMark> answers, Scorer scorer, ISampleStream stream)
    {
        _answers = answers.GetEnumerator();
        _scorer = scorer;
        _clock = stream.Format.Clock;
        _endTick = stream.EndTick;
        _hasAnswer = _answers.MoveNext();
    }

    /// <summary>Answers handed over.</summary>
    public long Count { get; private set; }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        long endNs = _clock.Nanoseconds(block.EndTick);
        bool isLast = block.EndTick >= _endTick;

        // At the end whatever is left: an answer that was given after the end keeps none behind it back.
        while (_hasAnswer && (isLast || Math.Max(_answers.Current.TimeNs, _answers.Current.EmittedTimeNs) <= endNs))
        {
            if (_answers.Current.TimeNs <= endNs)
            {
                Count++;
                _scorer.AddMark(_answers.Current);
            }

            _hasAnswer = _answers.MoveNext();
        }
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
    }

    /// <inheritdoc/>
    public void Dispose() => _answers.Dispose();
}
