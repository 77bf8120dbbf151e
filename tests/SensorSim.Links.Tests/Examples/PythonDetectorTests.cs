// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Links.Tests.Frames;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Examples;

/// <summary>The example in Python, spoken to through its pipes with the codec in C#.</summary>
public sealed class PythonDetectorTests
{
    private const int RateHz = 250;
    private const int RiseSamples = 10;
    private static readonly StreamFormat s_format = new(
    [
        new ChannelFormat { Name = ChannelName.Ecg, Device = "device_0", RateHz = RateHz, Bits = 16, IsSigned = true, UnitPerCode = 0.001 },
        new ChannelFormat { Name = ChannelName.Infrared, Device = "device_0", RateHz = 100, Bits = 18, IsSigned = false, UnitPerCode = 0.1 },
    ]);

    // Where the waves of the ECG begin to rise; one of them lies in the first second, in which the detector only looks.
    private static readonly int[] s_waves = [150, 400, 600, 800, 1000, 1200];

    private Process _process = null!;
    private FrameWriter _writer = null!;
    private FrameReader _reader = null!;
    private Queue<(FrameType Type, uint Sequence, byte[] Payload)> _frames = null!;

    private delegate int Writing(Span<byte> payload);

    [SetUp]
    public void Start()
    {
        string script = Path.Combine(CCompiler.Root, "docs", "examples", "process", "python", "threshold_detector.py");
        _process = Process.Start(new ProcessStartInfo("python3", ["-B", script]) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;
        _writer = new FrameWriter();
        _reader = new FrameReader();
        _frames = new Queue<(FrameType, uint, byte[])>();
    }

    [TearDown]
    public void End()
    {
        _process.StandardInput.Close();
        bool hasEnded = _process.WaitForExit(10_000);
        if (!hasEnded)
        {
            _process.Kill();
        }

        string errors = _process.StandardError.ReadToEnd();
        int code = hasEnded ? _process.ExitCode : -1;
        _process.Dispose();
        Assert.That((code, errors), Is.EqualTo((0, "")));
    }

    [TestCase(1500)]
    [TestCase(333)]
    public void Session_WholeStream_GivesTheMarksWhateverTheCut(int blockTicks)
    {
        Begin(7);
        var marks = new List<Mark>();
        ProgressPayload progress = default;
        var writer = new SamplesWriter(s_format);
        for (long begin = 0; begin < 3000; begin += blockTicks)
        {
            long end = Math.Min(3000, begin + blockTicks);
            writer.Begin(Waves(begin, end), asksAtEnd: true);
            foreach (byte[] payload in SamplesTests.Payloads(writer))
            {
                Send(FrameType.Samples, payload);
            }

            do
            {
                progress = Collect(marks, FrameType.Progress);
            }
            while (progress.TakenTick < end);
            Assert.That(progress.TakenTick, Is.EqualTo(end));
            Assert.That(progress.MarksSent, Is.EqualTo(marks.Count));
        }

        Send(FrameType.Stop, Payload(new TickPayload(3000).Write));
        ProgressPayload stopped = Collect(marks, FrameType.Stopped);

        // The steepest rise over 12 ms, three samples, is reached three samples after the begin of the wave; decided 60 ms later.
        Assert.That(marks.Select(m => (m.Channel, m.Kind, m.Sample, m.EmittedTick, m.Quality, m.PairedChannel, m.HasValue)), Is.EqualTo(
            s_waves[1..].Select(w => (0, MarkKind.RPeak, (long)w + 3, 2L * (w + 18), (byte)255, Mark.None, false))));
        Assert.That((stopped.Session, stopped.Damaged, stopped.Missing, stopped.Repeated, stopped.MarksSent), Is.EqualTo((7u, 0u, 0u, 0u, 5u)));
        Assert.That(stopped.Accepted, Is.EqualTo(_writer.NextSequence), "everything since hello");
    }

    [Test]
    public void Session_Misuse_IsAnsweredByTrouble()
    {
        Send(FrameType.Ask, []);
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.NotStarted));
        Send(FrameType.Hello, Payload(new HelloPayload(1, 2, 9, "test").Write));
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.WrongVersion));
        Send(FrameType.Hello, Payload(new HelloPayload(1, 1, 9, "test").Write));
        Assert.That(Next().Type, Is.EqualTo(FrameType.About));
        Send(FrameType.Capture, Payload(CapturePayload.Write));
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.UnknownType));
        Send(FrameType.Start, Payload(new TickPayload(0).Write));
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.FormatRefused));
        Send(FrameType.Stop, Payload(new TickPayload(0).Write));
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.NotStarted));
        Send(FrameType.Start, [1, 2, 3]);
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.WrongContent));
        Send(FrameType.Setup, Payload(b => SetupPayload.Write([new SetupItem(SetupItems.BeatTWaveMs, 0, 300)], b)));
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.SetupRefused));

        Begin(2);
        var writer = new SamplesWriter(s_format);
        writer.Begin(Waves(0, 50), asksAtEnd: true);
        byte[] samples = SamplesTests.Payloads(writer)[0];
        Send(FrameType.Samples, samples);
        Assert.That(Next().Type, Is.EqualTo(FrameType.Progress));
        Send(FrameType.Samples, samples);
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.SamplesTooEarly));
        samples[16] = 5;
        Send(FrameType.Samples, samples);
        Assert.That(Trouble(), Is.EqualTo(TroubleCode.NoSuchChannel));
    }

    [Test]
    public void Session_StreamWithoutEcg_IsRefusedWithASentence()
    {
        Send(FrameType.Hello, Payload(new HelloPayload(3, 1, 1, "test").Write));
        Assert.That(AboutPayload.TryRead(Next().Payload, out AboutPayload about), Is.True);
        Assert.That((about.Session, about.Detector), Is.EqualTo((3u, "threshold 1.0")));
        var format = new StreamFormat([new ChannelFormat { Name = ChannelName.Red, Device = "a", RateHz = 50, Bits = 18, IsSigned = false, UnitPerCode = 1 }]);
        Send(FrameType.Format, FormatTests.PayloadsOf(format)[0]);
        Assert.That(Next().Type, Is.EqualTo(FrameType.Accepted));
        Send(FrameType.Start, Payload(new TickPayload(0).Write));
        Assert.That(TroublePayload.TryRead(Next().Payload, out TroublePayload trouble), Is.True);
        Assert.That(trouble, Is.EqualTo(new TroublePayload(TroubleCode.FormatRefused, _writer.NextSequence - 1, "The stream has no ecg; threshold needs it.")));
    }

    private void Begin(uint session)
    {
        Send(FrameType.Hello, Payload(new HelloPayload(session, 1, 1, "test").Write));
        Assert.That(Next().Type, Is.EqualTo(FrameType.About));
        foreach ((FrameType type, byte[] payload) in new[] { (FrameType.Format, FormatTests.PayloadsOf(s_format)[0]), (FrameType.Start, Payload(new TickPayload(0).Write)) })
        {
            Send(type, payload);
            (FrameType answer, _, byte[] accepted) = Next();
            Assert.That(answer, Is.EqualTo(FrameType.Accepted));
            Assert.That(AcceptedPayload.TryRead(accepted, out AcceptedPayload what), Is.True);
            Assert.That(what, Is.EqualTo(new AcceptedPayload(type, _writer.NextSequence - 1)));
        }
    }

    // Up to a progress or stopped, with the marks before it.
    private ProgressPayload Collect(List<Mark> marks, FrameType until)
    {
        var here = new Mark[MarkPayload.MaximumCount];
        while (true)
        {
            (FrameType type, _, byte[] payload) = Next();
            if (type == until)
            {
                Assert.That(ProgressPayload.TryRead(payload, out ProgressPayload progress), Is.True);
                return progress;
            }

            if (type == FrameType.Marks)
            {
                Assert.That(MarkPayload.TryRead(payload, s_format, here, out int count), Is.True);
                marks.AddRange(here[..count]);
            }
            else
            {
                Assert.That(type, Is.EqualTo(FrameType.Progress), "half of the credit is used up");
            }
        }
    }

    private TroubleCode Trouble()
    {
        (FrameType type, _, byte[] payload) = Next();
        Assert.That(type, Is.EqualTo(FrameType.Trouble));
        Assert.That(TroublePayload.TryRead(payload, out TroublePayload trouble), Is.True);
        Assert.That((trouble.Sequence, trouble.Text), Is.EqualTo((_writer.NextSequence - 1, trouble.Text)).And.Not.EqualTo((0u, "")));
        return trouble.Code;
    }

    private void Send(FrameType type, byte[] payload)
    {
        _process.StandardInput.BaseStream.Write(FrameTests.Made(_writer, type, payload));
        _process.StandardInput.BaseStream.Flush();
    }

    private (FrameType Type, uint Sequence, byte[] Payload) Next()
    {
        var bytes = new byte[4096];
        while (_frames.Count == 0)
        {
            int count = _process.StandardOutput.BaseStream.ReadAsync(bytes).AsTask().WaitAsync(TimeSpan.FromSeconds(20)).GetAwaiter().GetResult();
            Assert.That(count, Is.Positive, "the program has ended");
            foreach ((FrameType, uint, byte[]) frame in FrameTests.FramesOf(_reader, bytes[..count], count))
            {
                _frames.Enqueue(frame);
            }
        }

        return _frames.Dequeue();
    }

    private static SampleBlock Waves(long begin, long end)
    {
        SampleBlock block = SamplesTests.Ramp(s_format, begin, end);
        var codes = new int[block.Channels[0].Count];
        long first = block.Channels[0].Runs.Length == 0 ? 0 : block.Channels[0].Runs[0].FirstIndex;
        for (int i = 0; i < codes.Length; i++)
        {
            // A triangle: 100 codes a sample up, then down again.
            codes[i] = s_waves.Sum(w => (int)Math.Max(0, 100 * (RiseSamples - Math.Abs(first + i - w - RiseSamples))));
        }

        block.Begin(begin, end);
        if (codes.Length > 0)
        {
            block.Channels[0].Append(first, codes.Length, out Span<int> target, out _);
            codes.CopyTo(target);
        }

        return block;
    }

    private static byte[] Payload(Writing write)
    {
        var bytes = new byte[FrameLimits.MaximumPayload];
        return bytes[..write(bytes)];
    }
}
