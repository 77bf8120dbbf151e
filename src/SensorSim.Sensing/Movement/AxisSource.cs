// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Devices;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Movement;

/// <summary>One axis of the accelerometer: gravity, movement and noise, converted to codes.</summary>
internal sealed class AxisSource : ChannelSource
{
    private readonly MovementModel _model;
    private readonly ConversionStage _converter;
    private readonly KeyedRandom _noise;
    private readonly Course _noiseCourse;
    private readonly double _stillG;
    private readonly int _axis;
    private MovementGrid _movement;
    private double _noiseG;

    public AxisSource(KeyValues values, ulong seed, MovementModel movement, ChannelName name)
        : base(values, FormatOf(values, name), Device.Of(values, name).Grid(values[AccelerometerKeys.RateHz], 0), AccelerometerKeys.Live)
    {
        _axis = name - ChannelName.AccelX;
        _model = movement;
        _movement = new MovementGrid(movement, Grid);
        _converter = new ConversionStage(values, seed, Format, Grid);
        _noise = new KeyedRandom(seed, "accelerometer.noise_" + "xyz"[_axis]);
        _noiseCourse = values.Course(AccelerometerKeys.NoiseUgPerRthz);
        Axes still = movement.Gravity(0);
        _stillG = _axis == 0 ? still.X : _axis == 1 ? still.Y : still.Z;
    }

    private AxisSource(AxisSource other)
        : base(other)
    {
        _model = other._model;
        _converter = other._converter.Copy();
        _noise = other._noise;
        _noiseCourse = other._noiseCourse;
        _noiseG = other._noiseG;
        _stillG = other._stillG;
        _axis = other._axis;
        _movement = other._movement.Copy();
    }

    public override void Join(ChannelSource earlier)
    {
        if (earlier is AxisSource other)
        {
            _movement = other._movement;
        }
    }

    public override ChannelSource Copy(BodyModel body) => new AxisSource(this);

    // White over 0 to half the rate: rms = density × √(rate / 2).
    protected override void Latch(double seconds) => _noiseG = _noiseCourse.Value(seconds) * 1e-6 * Math.Sqrt(Format.RateHz * 0.5);

    protected override void Make(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
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

        _converter.Convert(scratch, codes, status, firstIndex);
    }

    private static ChannelFormat FormatOf(KeyValues values, ChannelName name) => new()
    {
        Name = name,
        Device = Device.Of(values, name).Name,
        RateHz = (int)values[AccelerometerKeys.RateHz],
        Bits = (int)values[AccelerometerKeys.Bits],
        IsSigned = true,
        UnitPerCode = 2 * values[AccelerometerKeys.RangeG] / (1 << (int)values[AccelerometerKeys.Bits]),
        DeclaredDelayNs = Device.Of(values, name).DeclaredDelayNs(0),
    };
}
