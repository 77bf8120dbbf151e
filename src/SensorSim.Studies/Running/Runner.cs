// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Replays;

namespace SensorSim.Studies.Running;

/// <summary>The one runner: stream → detector → scorer, block by block, with truth beside it.</summary>
/// <remarks>Constant memory, and nothing is allocated per block. Not to be used again after <see cref="Run"/>.</remarks>
public sealed class Runner
{
    // A detector may need this long before its first mark; silence in a shorter stream says nothing about it.
    private const long ShortestNs = 10_000_000_000;

    private readonly ISampleStream _stream;
    private readonly EventRing<TruthEvent>? _truth;
    private readonly EventRing<AcquisitionEvent>? _acquisition;
    private readonly IDetector? _detector;
    private readonly Scorer? _scorer;
    private readonly IRunSink[] _sinks;
    private readonly DetectorOutput _output = new();
    private readonly SampleBlock _block;
    private readonly MarkReach _reach;
    private readonly long _blockTicks;
    private readonly long _announcedEndTick;
    private long _sampleCount;
    private long _markCount;
    private long _endNs;
    private bool _isDead;
    private bool _hasBegun;
    private long? _failedTick;
    private Verdict _verdict = Verdict.Answered;
    private string _reason = "";

    /// <summary>Creates a runner.</summary>
    /// <param name="stream">The stream, at its start; of an <see cref="IAcquiredStream"/> what its acquisition did goes to scorer and sinks.</param>
    /// <param name="truth">Where the stream's truth gathers; null when there is none.</param>
    /// <param name="detector">The detector; null to make signals only.</param>
    /// <param name="scorer">The scorer, which knows the clocks of the stream; null to score nothing.</param>
    /// <param name="sinks">What else takes blocks, truth and marks.</param>
    public Runner(ISampleStream stream, EventRing<TruthEvent>? truth, IDetector? detector, Scorer? scorer, params IRunSink[] sinks)
    {
        ArgumentNullException.ThrowIfNull(stream);
        if (scorer is not null && stream is IAcquiredStream acquired && !scorer.KnowsClocksOf(acquired))
        {
            throw new ArgumentException("The clocks of the stream's devices are off and the scorer does not know; make it from the stream.", nameof(scorer));
        }

        _stream = stream;
        _truth = truth;
        _acquisition = (stream as IAcquiredStream)?.Acquisition;
        _detector = detector;
        _scorer = scorer;
        _sinks = sinks;

        // About a second: small enough for the first-level cache, large enough that a call per block costs nothing.
        _blockTicks = stream.Format.Clock.TicksPerSecond;
        _block = new SampleBlock(stream.Format, _blockTicks);
        _reach = new MarkReach(stream.Format);
        _announcedEndTick = stream.EndTick;
        _endNs = stream.EndTick == long.MaxValue ? long.MaxValue : stream.Format.Clock.Nanoseconds(stream.EndTick);
    }

    /// <summary>Closes the loop from the detector to the stream; null: the loop is open and requests are ignored.</summary>
    public ControlLoop? Loop { get; init; }

    /// <summary>Runs to the end of the stream, or until cancelled.</summary>
    /// <param name="progress">Told the position in ticks after each block; may be null.</param>
    /// <param name="cancellation">Ends the run between two blocks.</param>
    /// <exception cref="OperationCanceledException">The run was cancelled.</exception>
    /// <exception cref="NotSupportedException">The detector cannot work on the stream.</exception>
    public RunOutcome Run(Action<long>? progress = null, CancellationToken cancellation = default)
    {
        StartDetector();
        while (_stream.PositionTick < _stream.EndTick)
        {
            cancellation.ThrowIfCancellationRequested();
            Step();
            progress?.Invoke(_stream.PositionTick);
        }

        bool isStopped = _stream.EndTick != _announcedEndTick;
        _endNs = isStopped ? _stream.Format.Clock.Nanoseconds(_stream.EndTick) : _endNs;
        TakeTruth(long.MaxValue);
        Ask(static (detector, _, output) => detector.Flush(output), isAtEnd: true);
        TakeMarks();
        if (isStopped)
        {
            // A stream that was stopped early ends where it stands; what would have come later is no miss.
            _scorer?.EndAt(_endNs);
        }

        if (_truth is { OverflowCount: > 0 })
        {
            throw new InvalidOperationException($"{_truth.OverflowCount} rows of truth found no room; scores would be wrong.");
        }

        if (_acquisition is { OverflowCount: > 0 })
        {
            throw new InvalidOperationException($"{_acquisition.OverflowCount} events of the acquisition found no room; scores would be wrong.");
        }

        if (_verdict == Verdict.Answered && _detector is not null && _markCount == 0 && Length() > ShortestNs)
        {
            _verdict = Verdict.Silent;
            _reason = "The detector gave no mark at all.";
        }

        return new RunOutcome(_verdict, _reason, _detector?.Name ?? "", _sampleCount, _markCount, _scorer?.Finish())
        {
            FailedAtS = _failedTick is long tick ? _stream.Format.Clock.Seconds(tick) : null,
        };
    }

    /// <summary>Whether the detector has crashed or hung, or gave what cannot be: it is not asked any more.</summary>
    public bool HasFailed => _isDead;

    private long Length() => _stream.EndTick == long.MaxValue ? long.MaxValue : _stream.Format.Clock.Nanoseconds(_stream.EndTick);

    private void StartDetector()
    {
        try
        {
            _detector?.Start(_stream.Format);
        }
        catch (Exception e) when (e is not (OutOfMemoryException or NotSupportedException))
        {
            Fail(e, "at its start");
        }
    }

    /// <summary>Runs one block: at most a second, in a closed loop one quantum.</summary>
    public void Step()
    {
        if (!_hasBegun)
        {
            KeepSettings();
        }

        long end = Math.Min(_stream.EndTick, Loop?.QuantumEnd(_stream.PositionTick) ?? (_stream.PositionTick + _blockTicks));
        Loop?.Release(end, _sinks);
        _stream.Read(_block, end);
        foreach (ChannelBlock channel in _block.Channels)
        {
            _sampleCount += channel.Count;
        }

        foreach (IRunSink sink in _sinks)
        {
            sink.OnBlock(_block);
        }

        TakeAcquisition();
        Ask(static (detector, block, output) => detector.Process(block, output));

        // Truth comes ahead of the samples. What may be stopped keeps it until they are there, so that none lies behind the stop.
        TakeTruth(_stream is StoppableStream ? _stream.Format.Clock.Nanoseconds(_stream.PositionTick) : long.MaxValue);
        TakeMarks();
        _scorer?.AdvanceToDeviceTime(_stream.Format.Clock.Nanoseconds(_stream.PositionTick));
    }

    // Without a loop nobody changes the sensor's settings: what is ahead may be made in long stretches.
    private void KeepSettings()
    {
        _hasBegun = true;
        if (Loop is null && _stream is IAdjustableStream adjustable)
        {
            adjustable.KeepSettings();
        }
    }

    // A detector that throws is a verdict on it, not the end of the run.
    private void Ask(Action<IDetector, SampleBlock, DetectorOutput> call, bool isAtEnd = false)
    {
        if (_detector is null || _isDead)
        {
            return;
        }

        try
        {
            call(_detector, _block, _output);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            Fail(e, isAtEnd ? "at the end of the stream" : FormattableString.Invariant($"in the block that ends at {_stream.Format.Clock.Seconds(_stream.PositionTick):0.0##} s"));
        }
    }

    private void Fail(Exception e, string when)
    {
        // Whatever it said before, from here on it says nothing.
        _isDead = true;
        _failedTick ??= e is DetectorLateException ? null : _stream.PositionTick;
        _verdict = e is DetectorHungException ? Verdict.Hung : e is DetectorLateException ? Verdict.Late : Verdict.Crashed;
        string message = OneLine.Of(e.Message);
        _reason = e is DetectorHungException or DetectorCrashedException or DetectorLateException
            ? $"{message}, {when}."
            : $"The detector threw {e.GetType().Name} {when}: {message}";
    }

    private void TakeAcquisition()
    {
        while (_acquisition is not null && _acquisition.TryTake(out AcquisitionEvent happened))
        {
            if (happened.Kind.IsUnusable())
            {
                _scorer?.AddUnusable(happened.Channel, happened.BeginNs, happened.EndNs);
            }

            foreach (IRunSink sink in _sinks)
            {
                sink.OnAcquisition(happened);
            }
        }
    }

    private void TakeTruth(long untilNs)
    {
        while (_truth is { Count: > 0 } && _truth[0].TimeNs < untilNs && _truth.TryTake(out TruthEvent truth))
        {
            if (truth.TimeNs >= _endNs)
            {
                continue;
            }

            _scorer?.AddTruth(truth);
            foreach (IRunSink sink in _sinks)
            {
                sink.OnTruth(truth);
            }
        }
    }

    private void TakeMarks()
    {
        if (_output.Marks.OverflowCount > 0 && _verdict == Verdict.Answered)
        {
            _verdict = Verdict.Babbling;
            _failedTick ??= _stream.PositionTick;
            _reason = $"The detector gave more than {_output.Marks.Capacity} marks in a second; the rest was dropped.";
        }

        while (_output.Marks.TryTake(out Mark mark))
        {
            if (!_reach.Holds(mark, _block.BeginTick, _stream.PositionTick) && IsRefused(mark))
            {
                continue;
            }

            _markCount++;
            _scorer?.AddMark(mark);
            foreach (IRunSink sink in _sinks)
            {
                sink.OnMark(mark);
            }
        }

        Loop?.Take(_output.Requests, _stream.PositionTick);
        _output.Requests.Clear();
    }

    // Whatever is impossible ends the detector, a lie only the trust in it; neither is scored.
    private bool IsRefused(in Mark mark)
    {
        if (ImpossibleMarks.Of(mark, _stream.Format) is string impossible)
        {
            _isDead = true;
            _failedTick ??= _stream.PositionTick;
            _verdict = Verdict.Crashed;
            _reason = impossible;
            return true;
        }

        if (Lies.Of(mark, _stream.Format, _block.BeginTick, _stream.PositionTick) is string lie)
        {
            if (_verdict == Verdict.Answered)
            {
                _verdict = Verdict.Lying;
                _failedTick ??= _stream.PositionTick;
                _reason = lie;
            }

            return true;
        }

        return false;
    }
}
