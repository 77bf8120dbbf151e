// SPDX-License-Identifier: MIT
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Tests.Boards;

/// <summary>A board that sends samples of its own, those of a scenario, as fast as the line takes them.</summary>
internal sealed class SamplingBoard : IDisposable
{
    private readonly ILink _link;
    private readonly SensorStream _stream;
    private readonly Func<int, bool> _isLost;
    private readonly int _diesAfter;
    private readonly string _name;
    private readonly Thread _thread;
    private readonly FrameReader _reader = new();
    private readonly FrameWriter _writer = new();
    private readonly byte[] _payload = new byte[FrameLimits.MaximumPayload];
    private readonly byte[] _wire = new byte[FrameLimits.WireBuffer];
    private bool _isSampling;
    private bool _isAsked;

    /// <summary>Begins to serve.</summary>
    /// <param name="link">Its end of the link.</param>
    /// <param name="scenario">What it samples.</param>
    /// <param name="isLost">Which frames of samples, by number, it numbers but does not send.</param>
    /// <param name="diesAfter">Frames of samples after which it is gone.</param>
    /// <param name="name">Name and version that it gives itself.</param>
    public SamplingBoard(ILink link, Scenario scenario, Func<int, bool>? isLost = null, int diesAfter = int.MaxValue, string name = "bench board 1")
    {
        _link = link;
        _stream = scenario.CreateStream();
        _isLost = isLost ?? (_ => false);
        _diesAfter = diesAfter;
        _name = name;
        _thread = new Thread(Serve) { IsBackground = true };
        _thread.Start();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _link.Dispose();
        _thread.Join(5000);
    }

    private void Serve()
    {
        var block = new SampleBlock(_stream.Format, _stream.Format.Clock.TicksPerSecond);
        var samples = new SamplesWriter(_stream.Format);
        byte[] bytes = new byte[1024];
        int number = 0;
        try
        {
            while (true)
            {
                ReadOnlySpan<byte> came = bytes.AsSpan(0, _link.Read(bytes, TimeSpan.FromMilliseconds(_isSampling ? 0 : 20)));
                while (_reader.TryRead(ref came, out Frame frame))
                {
                    Take(frame);
                }

                if (!_isSampling)
                {
                    continue;
                }

                if (_isAsked)
                {
                    _isAsked = false;
                    Send(FrameType.Log, new LogPayload(LogLevel.Information, "sampling begins").Write(_payload));
                }

                if (_stream.PositionTick >= _stream.EndTick)
                {
                    _isSampling = false;
                    continue;
                }

                _stream.Read(block, Math.Min(_stream.EndTick, _stream.PositionTick + (_stream.Format.Clock.TicksPerSecond / 2)));
                samples.Begin(block, asksAtEnd: false);
                int length;
                while ((length = samples.Write(_payload)) > 0)
                {
                    if (number == _diesAfter)
                    {
                        _link.Dispose();
                        return;
                    }

                    Send(FrameType.Samples, length, isLost: _isLost(number++));
                }
            }
        }
        catch (LinkLostException)
        {
            // The host has what it wanted.
        }
    }

    private void Take(in Frame frame)
    {
        switch (frame.Type)
        {
            case FrameType.Hello:
                Assert.That(HelloPayload.TryRead(frame.Payload, out HelloPayload hello), Is.True);
                Send(FrameType.About, new AboutPayload(hello.Session, FrameLimits.Version, FrameLimits.MaximumPayload, 4, 100, _name).Write(_payload));
                break;
            case FrameType.Capture:
                Send(FrameType.Accepted, new AcceptedPayload(frame.Type, frame.Sequence).Write(_payload));
                for (int i = 0; i < FormatPayload.Count(_stream.Format); i++)
                {
                    Send(FrameType.Format, FormatPayload.Write(_stream.Format, i, _payload));
                }

                _isAsked = !_isSampling;
                _isSampling = true;
                break;
            case FrameType.Stop:
                _isSampling = false;
                Send(FrameType.Stopped, default(ProgressPayload).Write(_payload));
                break;
            default:
                break;
        }
    }

    private void Send(FrameType type, int length, bool isLost = false)
    {
        int bytes = _writer.Write(type, _payload.AsSpan(0, length), _wire);
        if (!isLost)
        {
            _link.Write(_wire.AsSpan(0, bytes));
        }
    }
}
