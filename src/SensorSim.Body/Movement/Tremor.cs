// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
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
        Vector256<double> index = Vector256.Create((double)block.First) + Vector256.Create(0.0, 1, 2, 3);
        for (int i = 0; i < block.Count; i += 4)
        {
            // The arrays reach to a multiple of four.
            Vector256<double> seconds = Vector256.Create(block.Grid.StartSeconds) + (index * block.Grid.StepSeconds);
            PortableMath.SinCosTurns(seconds * _hertz, out Vector256<double> sin, out Vector256<double> cos);
            Vector256<double> gain = Vector256.LoadUnsafe(ref block.Gains[i]);
            Vector256<double> one = Vector256.LoadUnsafe(ref block.Spare[i]);
            Vector256<double> two = Vector256.LoadUnsafe(ref block.Turns[i]);
            Vector256<double> along = gain * ((one * sin) + (two * cos));
            Vector256<double> across = gain * ((one * cos) - (two * sin));
            (Vector256.LoadUnsafe(ref block.X[i]) + (along * AlongX)).StoreUnsafe(ref block.X[i]);
            (Vector256.LoadUnsafe(ref block.Y[i]) + (across * AlongY)).StoreUnsafe(ref block.Y[i]);
            (Vector256.LoadUnsafe(ref block.Z[i]) + (along * AlongZ)).StoreUnsafe(ref block.Z[i]);
            index += Vector256.Create(4.0);
        }
    }
}
