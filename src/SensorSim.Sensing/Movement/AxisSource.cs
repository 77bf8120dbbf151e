// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
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
    private readonly SampleGrid _grid;
    private readonly Converter _converter;
    private readonly KeyedRandom _noise;
    private readonly double _noiseG;
    private readonly double _gravityG;
    private readonly RotationGroup _terms;
    private readonly Vector256<double> _sineG;
    private readonly Vector256<double> _cosineG;
    private readonly bool _isMoving;

    public AxisSource(KeyValues values, ulong seed, MovementModel movement, ChannelName name)
    {
        int rate = (int)values[AccelerometerKeys.RateHz];
        int bits = (int)values[AccelerometerKeys.Bits];
        int axis = name - ChannelName.AccelX;
        Format = new ChannelFormat
        {
            Name = name,
            Device = "sensor",
            RateHz = rate,
            Bits = bits,
            IsSigned = true,
            UnitPerCode = 2 * values[AccelerometerKeys.RangeG] / (1 << bits),
        };
        _grid = new SampleGrid(0, 1.0 / rate);
        _converter = new Converter(Format);
        _noise = new KeyedRandom(seed, "accelerometer.noise_" + "xyz"[axis]);

        // White over 0 to half the rate: rms = density × √(rate / 2).
        _noiseG = values[AccelerometerKeys.NoiseUgPerRthz] * 1e-6 * Math.Sqrt(rate * 0.5);
        _gravityG = MovementModel.GravityG(axis);
        _isMoving = movement.IsMoving;
        _terms = new RotationGroup(movement.Stride, MovementModel.Multiples);
        for (int i = 0; i < MovementModel.Multiples.Length; i++)
        {
            _sineG = _sineG.WithElement(i, movement.SineG(axis, i));
            _cosineG = _cosineG.WithElement(i, movement.CosineG(axis, i));
        }
    }

    private AxisSource(AxisSource other)
    {
        Format = other.Format;
        _grid = other._grid;
        _converter = other._converter;
        _noise = other._noise;
        _noiseG = other._noiseG;
        _gravityG = other._gravityG;
        _isMoving = other._isMoving;
        _terms = other._terms.Copy();
        _sineG = other._sineG;
        _cosineG = other._cosineG;
    }

    /// <summary>Format of the channel.</summary>
    public ChannelFormat Format { get; }

    public override void Fill(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        scratch.Fill(_gravityG);
        if (_isMoving)
        {
            _terms.Add(scratch, _grid, firstIndex, _sineG, _cosineG);
        }

        if (_noiseG != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseG);
        }

        _converter.Convert(scratch, codes, status);
    }

    public override ChannelSource Copy(BodyModel body) => new AxisSource(this);
}
