// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Attributes;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Body;
using SensorSim.Sensing;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Stages;

/// <summary>Each channel by itself, from beats that are already planned, converted: a figure is one sample of the channel.</summary>
/// <remarks>Each invocation makes the same stretch with a copy of the channel's source, which shows as a few bytes per sample.</remarks>
[MemoryDiagnoser]
public class ChannelSourceBenchmarks
{
    // As long as the body's ring of beats remembers at 80 beats a minute.
    private const int Seconds = 30;

    private readonly double[] _scratch = new double[250];
    private readonly int[] _codes = new int[250];
    private readonly ushort[] _status = new ushort[250];
    private readonly Channels _off = new(StreamInput.EverythingOff);
    private readonly Channels _on = new(StreamInput.EverythingOn);

    /// <summary>ECG, no disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 250)]
    public int Ecg_EverythingOff() => Fill(_off, ChannelName.Ecg, 250);

    /// <summary>ECG, every disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 250)]
    public int Ecg_EverythingOn() => Fill(_on, ChannelName.Ecg, 250);

    /// <summary>Infrared, no disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 100)]
    public int Infrared_EverythingOff() => Fill(_off, ChannelName.Infrared, 100);

    /// <summary>Infrared, every disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 100)]
    public int Infrared_EverythingOn() => Fill(_on, ChannelName.Infrared, 100);

    /// <summary>Dark slot, no disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 100)]
    public int Dark_EverythingOff() => Fill(_off, ChannelName.Dark, 100);

    /// <summary>Dark slot, every disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 100)]
    public int Dark_EverythingOn() => Fill(_on, ChannelName.Dark, 100);

    /// <summary>One axis, no disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 50)]
    public int AccelX_EverythingOff() => Fill(_off, ChannelName.AccelX, 50);

    /// <summary>One axis, every disturbance.</summary>
    [Benchmark(OperationsPerInvoke = Seconds * 50)]
    public int AccelX_EverythingOn() => Fill(_on, ChannelName.AccelX, 50);

    private int Fill(Channels channels, ChannelName name, int rateHz)
    {
        object source = channels.Copy(name);
        Span<double> scratch = _scratch.AsSpan(0, rateHz);
        Span<int> codes = _codes.AsSpan(0, rateHz);
        Span<ushort> status = _status.AsSpan(0, rateHz);
        for (int i = 1; i <= Seconds; i++)
        {
            ChannelAccess.Fill(source, scratch, codes, status, i * rateHz);
        }

        return codes[0];
    }

    // The channels after the first second, and a body planned far enough for all that is drawn.
    private sealed class Channels
    {
        private readonly SensorStream _stream;
        private readonly BodyModel _body;

        public Channels(StreamInput input)
        {
            _stream = input.CreateStream();
            long second = _stream.Format.Clock.TicksPerSecond;
            _stream.Read(new SampleBlock(_stream.Format, second), second);
            _body = ChannelAccess.Body(_stream);
            _body.PlanUntil(Seconds + 1.1 + BodyModel.LeadSeconds);
        }

        public object Copy(ChannelName name) => ChannelAccess.Copy(ChannelAccess.Source(_stream, _stream.Format.IndexOf(name)), _body);
    }
}
