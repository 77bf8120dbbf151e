// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Movement;

/// <summary>One axis of the accelerometer: gravity, movement, the axis' own errors and noise, converted to codes.</summary>
internal sealed class AxisSource : ChannelSource
{
    private readonly MovementModel _model;
    private readonly ConversionStage _converter;
    private readonly KeyedRandom _noise;
    private readonly AxisNoise? _slowNoise;
    private readonly Course _noiseCourse;
    private readonly double _gain;
    private readonly double _offsetG;
    private readonly double _rootBandwidth;
    private readonly double _stillG;
    private readonly int _axis;
    private AxisMovement _movement;
    private double _noiseG;

    public AxisSource(KeyValues values, ulong seed, MovementModel model, AxisMovement movement, ChannelName name)
        : base(values, FormatOf(values, name), Device.Of(values, name).Grid(values[AccelerometerKeys.RateHz], 0), AccelerometerKeys.Live)
    {
        _axis = name - ChannelName.AccelX;
        _model = model;
        _movement = movement;
        _converter = new ConversionStage(values, seed, Format, Grid);
        _noise = new KeyedRandom(seed, "accelerometer.noise_" + "xyz"[_axis]);
        _noiseCourse = values.Course(AccelerometerKeys.NoiseUgPerRthz);
        _gain = 1 + (values[AxisErrorKeys.GainErrorPercent[_axis]] * 0.01);
        _offsetG = values[AxisErrorKeys.OffsetMg[_axis]] * 1e-3;
        double bandwidth = values[AccelerometerKeys.BandwidthHz];
        _rootBandwidth = bandwidth > 0 ? AxisNoise.RootBandwidth(bandwidth) : Math.Sqrt(Format.RateHz * 0.5);
        bool isNoisy = !_noiseCourse.IsAlways(0);
        _slowNoise = bandwidth > 0 && isNoisy ? new AxisNoise(_noise, bandwidth, Grid) : null;
        _stillG = AxisTurn.Direction(values, _axis).Dot(model.Gravity(0));
    }

    private AxisSource(AxisSource other)
        : base(other)
    {
        _model = other._model;
        _converter = other._converter.Copy();
        _noise = other._noise;
        _slowNoise = other._slowNoise?.Copy();
        _noiseCourse = other._noiseCourse;
        _noiseG = other._noiseG;
        _gain = other._gain;
        _offsetG = other._offsetG;
        _rootBandwidth = other._rootBandwidth;
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
        else if (earlier is LightSource light)
        {
            _movement.Join(light.Movement);
        }
    }

    public override ChannelSource Copy(BodyModel body) => new AxisSource(this);

    // White over 0 to half the rate: rms = density × √(rate / 2); with a low-pass by the bandwidth that noise sees.
    protected override void Latch(double seconds) => _noiseG = _noiseCourse.Value(seconds) * 1e-6 * _rootBandwidth;

    protected override void Make(Span<double> scratch, Span<ushort> status, long firstIndex)
    {
        if (_model.IsStill)
        {
            scratch.Fill(_stillG);
        }
        else
        {
            _movement.Read(scratch, firstIndex, _axis);
        }

        if (_gain != 1 || _offsetG != 0)
        {
            SpanLanes.MultiplyThenAdd(scratch, _gain, _offsetG);
        }

        if (_slowNoise is not null)
        {
            _slowNoise.Add(scratch, firstIndex, _noiseG);
        }
        else if (_noiseG != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseG);
        }
    }

    protected override void Convert(Span<double> analog, Span<int> codes, Span<ushort> status, long firstIndex) =>
        _converter.Convert(analog, codes, status, firstIndex);

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
