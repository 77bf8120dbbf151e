// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Detection.Ambient;
using SensorSim.Detection.Beats;
using SensorSim.Detection.Movement;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Benchmarks.Chain;

/// <summary>The stages that find beats and pulses, alone, in the order in which the library runs them: beats of the ECG; room light and movement taken off red and
/// infrared, pulses in both. No gates, readings, spectrum, cadence.</summary>
/// <remarks>For streams of the usual channels without a gap. The library itself seeks pulses in one colour; here they are sought in both.</remarks>
internal sealed class CoreStages
{
    // As many samples as the library takes together.
    private const int MostInRun = 32;

    private readonly StreamFormat _format;
    private readonly int _ecg;
    private readonly int _dark;
    private readonly int _x;
    private readonly int _y;
    private readonly int _z;
    private readonly int[] _lights;
    private readonly int[] _zeros = new int[2];
    private readonly int[][] _clean;
    private int _lightsPerAccel;
    private BeatDetector _beats;
    private DarkSubtraction _room;
    private LitSlot _redSlot;
    private MovementReference _reference;
    private Canceller _canceller;
    private Canceller _redCanceller;
    private PulseDetector _pulses;
    private PulseDetector _redPulses;
    private NoProbe _probe;

    public CoreStages(StreamFormat format)
    {
        _format = format;
        _ecg = format.IndexOf(ChannelName.Ecg);
        _dark = format.IndexOf(ChannelName.Dark);
        _x = format.IndexOf(ChannelName.AccelX);
        _y = format.IndexOf(ChannelName.AccelY);
        _z = format.IndexOf(ChannelName.AccelZ);
        _lights = [format.IndexOf(ChannelName.Infrared), format.IndexOf(ChannelName.Red)];
        int rateHz = format.Channels[_lights[0]].RateHz;
        _clean = [new int[rateHz], new int[rateHz]];
        Start();
    }

    /// <summary>Beats and pulses found since the start.</summary>
    public long Found { get; private set; }

    /// <summary>Drops all state.</summary>
    public void Start()
    {
        ChannelFormat ecg = _format.Channels[_ecg];
        ChannelFormat light = _format.Channels[_lights[0]];
        ChannelFormat red = _format.Channels[_lights[1]];
        ChannelFormat dark = _format.Channels[_dark];
        ChannelFormat accel = _format.Channels[_x];
        _zeros[1] = red.ZeroCode * red.Polarity;
        _lightsPerAccel = light.RateHz / accel.RateHz;
        Found = 0;
        bool isStarted = _beats.Start(ecg.RateHz, (int)(256 / ecg.UnitPerCode))
            && _room.Start(light.RateHz, dark.RateHz, PlaceOf(light), light.ZeroCode * light.Polarity, dark.ZeroCode * dark.Polarity)
            && _reference.Start(accel.RateHz, (int)(1 / accel.UnitPerCode))
            && _canceller.Start(light.RateHz, accel.RateHz) && _redCanceller.Start(red.RateHz, accel.RateHz)
            && _pulses.Start(light.RateHz, 1) && _redPulses.Start(red.RateHz, 1);
        _redSlot.Start(red.RateHz, dark.RateHz, PlaceOf(red), _zeros[1]);
        bool isUsual = light.RateHz == dark.RateHz && light.RateHz == red.RateHz && light.RateHz % accel.RateHz == 0;
        if (!isStarted || !isUsual)
        {
            throw new InvalidOperationException("The stages do not work at these rates.");
        }
    }

    /// <summary>Takes a block.</summary>
    public void Take(SampleBlock block)
    {
        ReadOnlySpan<int> codes = block.Channels[_ecg].Codes;
        ReadOnlySpan<ushort> status = block.Channels[_ecg].Status;
        while (!codes.IsEmpty)
        {
            int taken = _beats.Take(codes, status, ref _probe, out bool isBeat);
            Found += isBeat ? 1 : 0;
            codes = codes[taken..];
            status = status[taken..];
        }

        int count = Clean(block);
        Seek(ref _pulses, _clean[0].AsSpan(0, count));
        Seek(ref _redPulses, _clean[1].AsSpan(0, count));
    }

    // Each light sample with the dark and acceleration samples up to its own tick, by the runs in which the library takes them.
    private int Clean(SampleBlock block)
    {
        ReadOnlySpan<int> infrared = block.Channels[_lights[0]].Codes;
        ReadOnlySpan<int> red = block.Channels[_lights[1]].Codes;
        Span<int> clean = _clean[0].AsSpan(0, infrared.Length);
        Span<int> redClean = _clean[1].AsSpan(0, infrared.Length);
        Sign(infrared, _format.Channels[_lights[0]].Polarity, clean);
        Sign(red, _format.Channels[_lights[1]].Polarity, redClean);
        _room.Take(block.Channels[_dark].Codes, _format.Channels[_dark].Polarity, clean, ref _redSlot, redClean, ref _probe);
        int accelAt = 0;
        for (int done = 0; done < clean.Length;)
        {
            int count = Math.Min(MostInRun, clean.Length - done);
            accelAt = TakeOffMovement(block, accelAt, done, clean.Slice(done, count), redClean.Slice(done, count));
            done += count;
        }

        return clean.Length;
    }

    private static void Sign(ReadOnlySpan<int> codes, int polarity, Span<int> signed)
    {
        // Whole vectors, then what is left over.
        int done = 0;
        for (; done <= codes.Length - Vector<int>.Count; done += Vector<int>.Count)
        {
            (new Vector<int>(codes[done..]) * polarity).CopyTo(signed[done..]);
        }

        for (; done < codes.Length; done++)
        {
            signed[done] = codes[done] * polarity;
        }
    }

    // While the reference is still it goes ahead, else the cancellers follow it step by step.
    private int TakeOffMovement(SampleBlock block, int accelAt, int index, Span<int> clean, Span<int> redClean)
    {
        ReadOnlySpan<int> x = block.Channels[_x].Codes;
        ReadOnlySpan<int> y = block.Channels[_y].Codes;
        ReadOnlySpan<int> z = block.Channels[_z].Codes;
        int before = _reference.Steps;
        int done = 0;
        if (_reference.IsStill)
        {
            int due = (accelAt * _lightsPerAccel) - index;
            int count = Math.Min((clean.Length - due + _lightsPerAccel - 1) / _lightsPerAccel, x.Length - accelAt);
            int taken = _reference.TakeStill(x.Slice(accelAt, count), y.Slice(accelAt, count), z.Slice(accelAt, count), out uint steps);
            accelAt += taken;
            int after = _reference.Steps;
            done = clean.Length;
            if (!_reference.IsStill)
            {
                // The last step belongs to what follows.
                taken--;
                after--;
                done = due + (taken * _lightsPerAccel);
            }

            uint stepped = 0;
            for (int i = 0; i < taken; i++)
            {
                stepped |= (steps >> i & 1) << (due + (i * _lightsPerAccel));
            }

            if (done > 0)
            {
                _canceller.TakeStill(clean[..done], stepped, before, after, ref _probe);
                _redCanceller.TakeStill(redClean[..done], stepped, before, after, ref _probe);
            }
        }

        while (done < clean.Length)
        {
            if ((accelAt * _lightsPerAccel) == index + done && accelAt < x.Length)
            {
                _reference.Next(x[accelAt], y[accelAt], z[accelAt]);
                accelAt++;
            }

            int count = Math.Min((accelAt * _lightsPerAccel) - index, clean.Length) - done;
            _canceller.Take(clean.Slice(done, count), default, _reference, ref _probe);
            _redCanceller.Take(redClean.Slice(done, count), default, _reference, ref _probe);
            done += count;
        }

        return accelAt;
    }

    private void Seek(ref PulseDetector pulses, ReadOnlySpan<int> light)
    {
        while (!light.IsEmpty)
        {
            light = light[pulses.Take(light, out bool isPulse)..];
            Found += isPulse ? 1 : 0;
        }
    }

    // Where in the interval of the dark slot a lit one lies [1/256], from the declared delays.
    private int PlaceOf(ChannelFormat light)
    {
        ChannelFormat dark = _format.Channels[_dark];
        return (int)((dark.DeclaredDelayNs - light.DeclaredDelayNs) * dark.RateHz * 256 / TickClock.NanosecondsPerSecond) & 255;
    }
}
