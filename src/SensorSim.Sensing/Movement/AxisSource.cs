// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
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
    private readonly AxisLowPass? _lowPass;
    private readonly Course _noiseCourse;
    private readonly Axes _direction;
    private readonly bool _isTurned;
    private readonly double _gain;
    private readonly double _offsetG;
    private readonly double _rootBandwidth;
    private readonly double _stillG;
    private readonly int _axis;
    private readonly int _perSample;
    private MovementGrid _movement;
    private double _noiseG;

    public AxisSource(KeyValues values, ulong seed, MovementModel movement, ChannelName name)
        : base(values, FormatOf(values, name), Device.Of(values, name).Grid(values[AccelerometerKeys.RateHz], 0), AccelerometerKeys.Live)
    {
        _axis = name - ChannelName.AccelX;
        _model = movement;

        // As dense as the tissue under a sensor on the same instants needs it, so that both draw the movement once.
        // Powers of two: every sample of the axis is one of the drawn, to the bit.
        _perSample = 1;
        while (_perSample / Grid.StepSeconds < MovementGrid.LeastHz)
        {
            _perSample *= 2;
        }

        _movement = new MovementGrid(movement, new SampleGrid(Grid.StartSeconds, Grid.StepSeconds / _perSample), hasGravity: false);
        _converter = new ConversionStage(values, seed, Format, Grid);
        _noise = new KeyedRandom(seed, "accelerometer.noise_" + "xyz"[_axis]);
        _noiseCourse = values.Course(AccelerometerKeys.NoiseUgPerRthz);
        _isTurned = AxisTurn.IsThere(values);
        _direction = AxisTurn.Direction(values, _axis);
        _gain = 1 + (values[AxisErrorKeys.GainErrorPercent[_axis]] * 0.01);
        _offsetG = values[AxisErrorKeys.OffsetMg[_axis]] * 1e-3;
        double bandwidth = values[AccelerometerKeys.BandwidthHz];
        _rootBandwidth = bandwidth > 0 ? AxisNoise.RootBandwidth(bandwidth) : Math.Sqrt(Format.RateHz * 0.5);
        _lowPass = bandwidth > 0 && !movement.IsStill ? new AxisLowPass(bandwidth, Grid) : null;
        bool isNoisy = !_noiseCourse.IsAlways(0);
        _slowNoise = bandwidth > 0 && isNoisy ? new AxisNoise(_noise, bandwidth, Grid) : null;
        Axes still = movement.Gravity(0);
        _stillG = Part(still);
    }

    private AxisSource(AxisSource other)
        : base(other)
    {
        _model = other._model;
        _converter = other._converter.Copy();
        _noise = other._noise;
        _slowNoise = other._slowNoise?.Copy();
        _lowPass = other._lowPass?.Copy();
        _noiseCourse = other._noiseCourse;
        _noiseG = other._noiseG;
        _direction = other._direction;
        _isTurned = other._isTurned;
        _gain = other._gain;
        _offsetG = other._offsetG;
        _rootBandwidth = other._rootBandwidth;
        _stillG = other._stillG;
        _axis = other._axis;
        _perSample = other._perSample;
        _movement = other._movement.Copy();
    }

    public override void Join(ChannelSource earlier)
    {
        if (earlier is AxisSource other)
        {
            _movement = other._movement;
        }
        else if (earlier is LightSource light && light.Movement.Grid == _movement.Grid)
        {
            _movement = light.Movement;
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
            AddMovement(scratch, firstIndex);
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

    private void AddMovement(Span<double> scratch, long firstIndex)
    {
        Along(scratch, firstIndex);
        if (_lowPass is not null)
        {
            double next = 0;
            Along(new Span<double>(ref next), firstIndex + scratch.Length);
            _lowPass.Apply(scratch, next);
        }
    }

    // Acceleration of the body along the sensor's axis.
    private void Along(Span<double> target, long firstIndex)
    {
        if (_model.IsMoving)
        {
            ReadMovement(target, firstIndex);
        }
        else
        {
            target.Clear();
        }

        double begin = Grid.Seconds(firstIndex);
        if (_model.IsGravitySteady(begin, Grid.Seconds(firstIndex + target.Length - 1), out Axes gravity))
        {
            SpanLanes.Add(target, Part(gravity));
            return;
        }

        for (int i = 0; i < target.Length; i++)
        {
            target[i] += Part(_model.Gravity(Grid.Seconds(firstIndex + i)));
        }
    }

    private double Part(Axes all) => _isTurned ? _direction.Dot(all) : _axis == 0 ? all.X : _axis == 1 ? all.Y : all.Z;

    private void ReadMovement(Span<double> target, long firstIndex)
    {
        int length = _movement.BlockLength;
        for (int done = 0; done < target.Length;)
        {
            long index = (firstIndex + done) * _perSample;
            long block = index / length;
            int place = (int)(index - (block * length));
            if (!_isTurned)
            {
                ReadOnlySpan<double> one = _movement.Block(block, _axis);
                for (; place < one.Length && done < target.Length; place += _perSample)
                {
                    target[done++] = one[place];
                }

                continue;
            }

            ReadOnlySpan<double> x = _movement.Block(block, 0);
            ReadOnlySpan<double> y = _movement.Block(block, 1)[..x.Length];
            ReadOnlySpan<double> z = _movement.Block(block, 2)[..x.Length];
            if (_perSample == 2)
            {
                int count = EverySecond(target[done..], x[place..], y[place..], z[place..]);
                done += count;
                place += 2 * count;
            }

            for (; place < x.Length && done < target.Length; place += _perSample)
            {
                target[done++] = (_direction.X * x[place]) + (_direction.Y * y[place]) + (_direction.Z * z[place]);
            }
        }
    }

    // Fours of every second value, as far as there are any: the same operations as one by one.
    private int EverySecond(Span<double> target, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> z)
    {
        int done = 0;
        if (Avx2.IsSupported)
        {
            ref double to = ref MemoryMarshal.GetReference(target);
            ref double fromX = ref MemoryMarshal.GetReference(x);
            ref double fromY = ref MemoryMarshal.GetReference(y);
            ref double fromZ = ref MemoryMarshal.GetReference(z);
            int end = Math.Min(target.Length, Math.Min(x.Length, Math.Min(y.Length, z.Length)) / 2) - Vector256<double>.Count;
            for (; done <= end; done += Vector256<double>.Count)
            {
                nuint from = (nuint)done * 2;
                Vector256<double> sum = (_direction.X * Even(ref fromX, from)) + (_direction.Y * Even(ref fromY, from)) + (_direction.Z * Even(ref fromZ, from));
                Avx2.Permute4x64(sum, 0b11_01_10_00).StoreUnsafe(ref to, (nuint)done);
            }
        }

        return done;
    }

    // Values 0, 4, 2 and 6.
    private static Vector256<double> Even(ref double first, nuint from) =>
        Avx.UnpackLow(Vector256.LoadUnsafe(ref first, from), Vector256.LoadUnsafe(ref first, from + 4));

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
