// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Tests.Boards;

/// <summary>The board's end of the protocol in C#, with the project's own library behind it, on a thread of its own.</summary>
internal sealed class LibraryBoard : IDisposable
{
    private static readonly TimeSpan s_look = TimeSpan.FromMilliseconds(50);

    private readonly BoardHabits _habits;
    private readonly BoardWriter _writer = new();
    private readonly DetectorOutput _output = new(100_000);
    private readonly SetupItem[] _itemRoom = new SetupItem[SetupPayload.MaximumCount];
    private readonly Thread _thread;
    private ILink _link;
    private FrameReader _reader = new();
    private FrameCounts _base;
    private uint? _session;
    private FormatGatherer _gatherer = new();
    private OptionItems _items = new();
    private IDetector? _detector;
    private SamplesReader? _samples;
    private SampleBlock? _block;
    private long _taken;
    private uint _lastSequence;
    private uint _toldAt;
    private bool _isStarted;
    private bool _isStopped;
    private bool _hasForgotten;
    private volatile bool _isClosed;

    /// <summary>Begins to serve.</summary>
    /// <param name="link">Its end of the link.</param>
    /// <param name="habits">How it behaves; null: well.</param>
    public LibraryBoard(ILink link, BoardHabits? habits = null)
    {
        _link = link;
        _habits = habits ?? new BoardHabits();
        _thread = new Thread(Serve) { IsBackground = true };
        _thread.Start();
    }

    /// <summary>Frames of samples that it accepted.</summary>
    public int SamplesFrames { get; private set; }

    /// <summary>Frames that say nothing new: repeated ones, time marks, asks. A host sends them when this board or the machine was slow.</summary>
    public int Repeats { get; private set; }

    /// <summary>Sessions that it was asked to begin.</summary>
    public int Sessions { get; private set; }

    /// <summary>Marks that it sent in the session at hand.</summary>
    public long MarksSent => _writer.MarksSent;

    /// <summary>What it told of the settings that changed.</summary>
    public List<SettingsRequest> Settings { get; } = [];

    /// <summary>Why it stopped serving, when it was by a fault of this code.</summary>
    public Exception? Failure { get; private set; }

    /// <summary>What it received, as counted since the hello of the session.</summary>
    public FrameCounts Counts => new(
        _reader.Counts.Good - _base.Good,
        _reader.Counts.Damaged - _base.Damaged,
        _reader.Counts.Missing - _base.Missing,
        _reader.Counts.Repeated - _base.Repeated,
        0);

    /// <summary>The cable is plugged in again: it goes on over another link.</summary>
    public void PlugIn(ILink link) => Volatile.Write(ref _link, link);

    /// <inheritdoc/>
    public void Dispose()
    {
        _isClosed = true;
        _link.Dispose();
        _thread.Join(5000);
    }

    private void Serve()
    {
        byte[] bytes = new byte[1024];
        ILink? last = null;
        ILink? lost = null;
        while (!_isClosed)
        {
            ILink link = Volatile.Read(ref _link);
            if (!ReferenceEquals(link, last))
            {
                // Half a frame of the link before belongs to nothing. Here and not in PlugIn: the reader is this thread's alone.
                _reader.DropRest();
                last = link;
            }

            try
            {
                if (_habits.RavesAfter <= SamplesFrames)
                {
                    link.Write("boot: no frames today\n"u8);
                    Thread.Yield();
                }

                ReadOnlySpan<byte> came = bytes.AsSpan(0, link.Read(bytes, s_look));
                if (ReferenceEquals(link, lost))
                {
                    // When an answer could not be sent, the frames behind the one at hand were dropped. Those that still lie in the link come after a gap that
                    // the host cannot know of, since it goes on where this board says that it is: they are lost, too.
                    continue;
                }

                while (_reader.TryRead(ref came, out Frame frame))
                {
                    _lastSequence = frame.Sequence;
                    Take(link, frame);
                }
            }
            catch (LinkLostException) when (!_isClosed)
            {
                // Somebody may plug another one in.
                lost = link;
                Thread.Yield();
            }
            catch (LinkLostException)
            {
                return;
            }
            catch (Exception e)
            {
                Failure = e;
                link.Dispose();
                return;
            }
        }
    }

    private void Take(ILink link, in Frame frame)
    {
        if (_habits.IsSilent || _habits.FallsSilentAfter <= SamplesFrames || _habits.RavesAfter <= SamplesFrames)
        {
            return;
        }

        _writer.Begin(link);
        switch (frame.Type)
        {
            case FrameType.Hello:
                Greet(frame);
                break;
            case FrameType.Ask when _session is not null:
                Repeats++;
                TellProgress(FrameType.Progress);
                break;
            case FrameType.Format when _session is not null:
                TakeFormat(frame);
                break;
            case FrameType.Setup when _session is not null:
                TakeSetup(frame);
                break;
            case FrameType.Start when _gatherer.Format is not null:
                Start(frame);
                break;
            case FrameType.Samples when _isStarted:
                TakeSamples(frame, link);
                break;
            case FrameType.Setting when _isStarted:
                Assert.That(SettingPayload.TryRead(frame.Payload, out SettingsRequest change), Is.True);
                Settings.Add(change);
                break;
            case FrameType.Stop when _isStarted:
                Stop();
                break;
            default:
                _writer.Trouble(TroubleCode.NotStarted, frame.Sequence, "there is no session");
                break;
        }
    }

    private void Greet(in Frame frame)
    {
        Assert.That(HelloPayload.TryRead(frame.Payload, out HelloPayload hello), Is.True);
        if (_habits.SpeaksAnotherVersion)
        {
            _writer.Trouble(TroubleCode.WrongVersion, frame.Sequence, "this board speaks version 2");
            return;
        }

        Repeats += _session == hello.Session ? 1 : 0;
        if (_session != hello.Session)
        {
            Sessions++;
            _isStopped = false;
            _session = hello.Session;
            _base = _reader.Counts with { Good = _reader.Counts.Good - 1 };
            _gatherer = new FormatGatherer();
            _items = new OptionItems();
            _isStarted = false;
            _writer.MarksSent = 0;
            _taken = 0;
        }

        _writer.About(new AboutPayload(hello.Session, _habits.Version, _habits.LargestPayload, _habits.Credit, 8128, _habits.Detector));
    }

    private void TakeFormat(in Frame frame)
    {
        Repeats += _gatherer.Format is null ? 0 : 1;
        if (!_gatherer.TryAdd(frame.Payload, out string? problem))
        {
            _writer.Trouble(TroubleCode.FormatRefused, frame.Sequence, problem!);
            return;
        }

        try
        {
            if (_gatherer.Format is not null)
            {
                using var trial = new LibraryDetector();
                trial.Start(_gatherer.Format);
            }

            _writer.Accepted(frame.Type, frame.Sequence);
        }
        catch (NotSupportedException e)
        {
            _writer.Trouble(TroubleCode.FormatRefused, _habits.NamesNoFrame ? 0 : frame.Sequence, e.Message);
        }
    }

    private void TakeSetup(in Frame frame)
    {
        Assert.That(SetupPayload.TryRead(frame.Payload, _itemRoom, out int count), Is.True);
        foreach (SetupItem item in _itemRoom.AsSpan(0, count))
        {
            _items.Add(item);
        }

        _writer.Accepted(frame.Type, frame.Sequence);
    }

    private void Start(in Frame frame)
    {
        Repeats += _isStarted ? 1 : 0;
        if (!_isStarted)
        {
            Assert.That(TickPayload.TryRead(frame.Payload, out TickPayload begin), Is.True);
            IDetector library = new LibraryDetector(_items.Options());
            _detector = _habits.Around is null ? library : _habits.Around(library);
            _detector.Start(_gatherer.Format!);
            _samples = new SamplesReader(_gatherer.Format!);
            _block = new SampleBlock(_gatherer.Format!, _gatherer.Format!.Clock.TicksPerSecond);
            _taken = begin.Tick;
            _isStarted = true;
            _toldAt = frame.Sequence;
        }

        _writer.Accepted(frame.Type, frame.Sequence);
    }

    private void TakeSamples(in Frame frame, ILink link)
    {
        if (_habits.DiesAfter <= SamplesFrames)
        {
            _isClosed = true;
            link.Dispose();
            throw new LinkLostException("dead");
        }

        if (_habits.ForgetsAfter <= SamplesFrames && !_hasForgotten)
        {
            (_session, _isStarted, _hasForgotten) = (null, false, true);
            _writer.Trouble(TroubleCode.NotStarted, frame.Sequence, "there is no session");
            return;
        }

        if (_habits.FaultAfter <= SamplesFrames)
        {
            _writer.Trouble(TroubleCode.BoardFault, frame.Sequence, "supply voltage low");
            return;
        }

        if (!_samples!.TryRead(frame.Payload, out SamplesPayload samples, out TroubleCode trouble) || samples.BeginTick < _taken)
        {
            _writer.Trouble(trouble == TroubleCode.None ? TroubleCode.SamplesTooEarly : trouble, frame.Sequence, "these samples do not fit");
            return;
        }

        bool isTimeMark = samples.BeginTick == samples.EndTick;
        Repeats += isTimeMark ? 1 : 0;
        SamplesFrames += isTimeMark ? 0 : 1;
        Compute(samples);
        for (int i = 0; i < _habits.LogLines; i++)
        {
            _writer.Log(LogLevel.Information, $"frame {SamplesFrames}");
        }

        if (_habits.SlowMs > 0)
        {
            using var pause = new ManualResetEventSlim();
            pause.Wait(_habits.SlowMs);
        }

        SendAnswers();
        if (_habits.ClaimsStopAfter == SamplesFrames)
        {
            TellProgress(FrameType.Stopped);
        }

        if (samples.WantsProgress || frame.Sequence - _toldAt >= (_habits.Credit + 1) / 2)
        {
            TellProgress(FrameType.Progress);
        }
    }

    // What lies between the samples taken and these is a gap; the library is handed it in pieces that fit.
    private void Compute(in SamplesPayload samples)
    {
        while (samples.EndTick - _taken > _block!.MaximumTicks)
        {
            long until = Math.Min(samples.BeginTick, _taken + _block.MaximumTicks);
            _block.Begin(_taken, until);
            _detector!.Process(_block, _output);
            _taken = until;
        }

        _block.Begin(_taken, samples.EndTick);
        samples.AppendTo(_block);
        _detector!.Process(_block, _output);
        _taken = samples.EndTick;
    }

    private void SendAnswers()
    {
        while (_output.Requests.TryTake(out SettingsRequest request))
        {
            _writer.Request(request);
        }

        while (_output.Marks.TryTake(out Mark mark))
        {
            if (!_habits.IsMute)
            {
                for (int i = 0; i < _habits.Copies; i++)
                {
                    _writer.Mark(_habits.Lies ? mark with { EmittedTick = mark.EmittedTick - _block!.MaximumTicks } : mark);
                }
            }
        }

        _writer.FlushMarks();
    }

    private void Stop()
    {
        Repeats += _isStopped ? 1 : 0;
        if (!_isStopped)
        {
            _detector!.Flush(_output);
            SendAnswers();
            _isStopped = true;
        }

        _writer.Figures([
            new BoardFigure(BoardFigures.StateBytes, 0, 8128),
            new BoardFigure(BoardFigures.AnswersLost, 0, 0),
            new BoardFigure(BoardFigures.StageTimerTicks, 0, 70_001),
            new BoardFigure(BoardFigures.StageTimerTicks, 1, 9_001),
            new BoardFigure(BoardFigures.BytesLost, 0, 5),
            .. _habits.Figures ?? [],
        ]);
        TellProgress(FrameType.Stopped);
    }

    private void TellProgress(FrameType type)
    {
        _toldAt = _lastSequence;
        FrameCounts counts = Counts;
        _writer.Progress(type, new ProgressPayload(
            _session!.Value,
            unchecked(_lastSequence + _habits.Credit),
            _taken,
            (uint)counts.Good,
            (uint)counts.Damaged,
            (uint)counts.Missing,
            (uint)counts.Repeated,
            (uint)(_writer.MarksSent + _habits.Miscounts),
            0));
    }
}
