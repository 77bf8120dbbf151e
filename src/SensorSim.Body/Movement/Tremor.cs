// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Tremor: a sine and a cosine of one frequency whose sizes fluctuate slowly, so a narrow band with waxing and waning size.</summary>
/// <remarks>
/// Both sizes are smooth noise with half a second between nodes: half power 0.46 Hz from the middle. Each has the rms of the whole, since
/// sine and cosine bring half of its power each. The hand moves along (0.6, 0, 0.8), and along y by 0.4 of it a quarter turn later.
/// </remarks>
internal sealed class Tremor
{
    private const double NodeSeconds = 0.5;
    private const double AlongX = 0.6;
    private const double AlongY = 0.4;
    private const double AlongZ = 0.8;
    private readonly LiveSize _size;
    private readonly SmoothNoise _sine;
    private readonly SmoothNoise _cosine;
    private readonly double _hertz;

    public Tremor(KeyValues values, ulong seed)
    {
        _size = new LiveSize(values.Course(HandMovementKeys.TremorG));
        _hertz = values[HandMovementKeys.TremorHz];
        double rms = Math.Sqrt(0.5);
        _sine = new SmoothNoise(new KeyedRandom(seed, "movement.tremor_sine"), NodeSeconds, rms);
        _cosine = new SmoothNoise(new KeyedRandom(seed, "movement.tremor_cosine"), NodeSeconds, rms);
    }

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => _size.IsOff;

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        double a = 0;
        double b = 0;
        var here = new SampleGrid(seconds, 1);
        _sine.Add(new Span<double>(ref a), here, 0);
        _cosine.Add(new Span<double>(ref b), here, 0);
        PortableMath.SinCosTurns(_hertz * seconds, out double sin, out double cos);
        double along = (a * sin) + (b * cos);
        return _size.At(seconds) * new Axes(AlongX * along, AlongY * ((a * cos) - (b * sin)), AlongZ * along);
    }

    /// <summary>Adds the acceleration to a block.</summary>
    public void Add(MovementBlock block)
    {
        if (IsOff || !_size.Fill(block, block.Gains.AsSpan(0, block.Count)))
        {
            return;
        }

        Span<double> a = block.Spare.AsSpan(0, block.Count);
        Span<double> b = block.Turns.AsSpan(0, block.Count);
        a.Clear();
        b.Clear();
        _sine.Add(a, block.Grid, block.First);
        _cosine.Add(b, block.Grid, block.First);
        for (int i = 0; i < block.Count; i++)
        {
            PortableMath.SinCosTurns(_hertz * block.Seconds(i), out double sin, out double cos);
            double along = block.Gains[i] * ((a[i] * sin) + (b[i] * cos));
            block.X[i] += AlongX * along;
            block.Y[i] += AlongY * block.Gains[i] * ((a[i] * cos) - (b[i] * sin));
            block.Z[i] += AlongZ * along;
        }
    }
}
