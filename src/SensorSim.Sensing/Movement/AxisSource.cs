// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Movement;

/// <summary>One axis of the accelerometer: gravity, movement and noise, converted to codes.</summary>
internal sealed class AxisSource : ChannelSource
{
    private readonly MovementModel _model;
    private readonly Converter _converter;
    private readonly KeyedRandom _noise;
    private readonly double _noiseG;
    private readonly double _stillG;
    private readonly int _axis;
    private MovementGrid _movement;

    public AxisSource(KeyValues values, ulong seed, MovementModel movement, ChannelName name)
    {
        int rate = (int)values[AccelerometerKeys.RateHz];
        int bits = (int)values[AccelerometerKeys.Bits];
        _axis = name - ChannelName.AccelX;
        _model = movement;
        Format = new ChannelFormat
        {
            Name = name,
            Device = "sensor",
            RateHz = rate,
            Bits = bits,
            IsSigned = true,
            UnitPerCode = 2 * values[AccelerometerKeys.RangeG] / (1 << bits),
        };
        _movement = new MovementGrid(movement, new SampleGrid(0, 1.0 / rate));
        _converter = new Converter(Format);
        _noise = new KeyedRandom(seed, "accelerometer.noise_" + "xyz"[_axis]);

        // White over 0 to half the rate: rms = density × √(rate / 2).
        _noiseG = values[AccelerometerKeys.NoiseUgPerRthz] * 1e-6 * Math.Sqrt(rate * 0.5);
        Axes still = movement.Gravity(0);
        _stillG = _axis == 0 ? still.X : _axis == 1 ? still.Y : still.Z;
    }

    private AxisSource(AxisSource other)
    {
        Format = other.Format;
        _model = other._model;
        _converter = other._converter;
        _noise = other._noise;
        _noiseG = other._noiseG;
        _stillG = other._stillG;
        _axis = other._axis;
        _movement = other._movement.Copy();
    }

    /// <summary>Format of the channel.</summary>
    public ChannelFormat Format { get; }

    public override void Fill(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        if (_model.IsStill)
        {
            scratch.Fill(_stillG);
        }
        else
        {
            scratch.Clear();
            _movement.Add(_axis, scratch, firstIndex);
        }

        if (_noiseG != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseG);
        }

        _converter.Convert(scratch, codes, status);
    }

    public override void Join(ChannelSource earlier)
    {
        if (earlier is AxisSource other)
        {
            _movement = other._movement;
        }
    }

    public override ChannelSource Copy(BodyModel body) => new AxisSource(this);
}
