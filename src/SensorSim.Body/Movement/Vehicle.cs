// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>A vehicle: on each axis by itself broad vibration and a slow sway, whose powers add up to the knob's.</summary>
internal sealed class Vehicle
{
    // 0.96² + 0.28² = 1.
    private const double BandPart = 0.96;
    private const double SwayPart = 0.28;
    private const double SwayNodeSeconds = 1;
    private readonly LiveSize _size;
    private readonly BandNoise[] _bands;
    private readonly SmoothNoise[] _sways;

    public Vehicle(KeyValues values, ulong seed)
    {
        _size = new LiveSize(values.Course(HandMovementKeys.VehicleGRms));
        _bands = new BandNoise[3];
        _sways = new SmoothNoise[3];
        for (int axis = 0; axis < 3; axis++)
        {
            _bands[axis] = new BandNoise(new KeyedRandom(seed, "movement.vehicle_band_" + "xyz"[axis]));
            _sways[axis] = new SmoothNoise(new KeyedRandom(seed, "movement.vehicle_sway_" + "xyz"[axis]), SwayNodeSeconds, SwayPart / BandPart);
        }
    }

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => _size.IsOff;

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        Axes all = new(One(0, seconds), One(1, seconds), One(2, seconds));
        return _size.At(seconds) * all;
    }

    /// <summary>Adds the acceleration to a block.</summary>
    /// <param name="block">The block.</param>
    /// <param name="nodes">Nodes about the blocks of its grid.</param>
    public void Add(MovementBlock block, VehicleNodes nodes)
    {
        Span<double> sizes = block.Gains.AsSpan(0, block.Count);
        if (IsOff || !_size.Fill(block, sizes))
        {
            return;
        }

        for (int i = 0; i < sizes.Length; i++)
        {
            sizes[i] *= BandPart;
        }

        AddBands(block, nodes.Of(block, _bands), nodes.First, sizes);
        for (int axis = 0; axis < 3; axis++)
        {
            Span<double> target = (axis == 0 ? block.X : axis == 1 ? block.Y : block.Z).AsSpan(0, block.Count);
            Span<double> sway = block.Spare.AsSpan(0, block.Count);
            sway.Clear();
            _sways[axis].Add(sway, block.Grid, block.First);
            for (int i = 0; i < target.Length; i++)
            {
                target[i] += sizes[i] * sway[i];
            }
        }
    }

    // Cubic B-splines: weights of four nodes by the place between the middle two, the same for all axes.
    private static void AddBands(MovementBlock block, ReadOnlySpan<Vector256<double>> nodes, long first, ReadOnlySpan<double> sizes)
    {
        Span<double> x = block.X.AsSpan(0, sizes.Length);
        Span<double> y = block.Y.AsSpan(0, sizes.Length);
        Span<double> z = block.Z.AsSpan(0, sizes.Length);
        for (int i = 0; i < sizes.Length; i++)
        {
            double place = block.Seconds(i) * BandNoise.NodesPerSecond;
            double node = Math.Floor(place);
            double u = place - node;
            double v = 1 - u;
            double size = sizes[i] * (1.0 / 6);
            double u2 = u * u;
            ReadOnlySpan<Vector256<double>> w = nodes.Slice((int)((long)node - 1 - first), 4);
            Vector256<double> sum = ((w[0] * (size * (v * (v * v)))) + (w[1] * (size * (4 + (u2 * ((3 * u) - 6))))))
                + ((w[2] * (size * (1 + (3 * (u + (u2 * v)))))) + (w[3] * (size * (u * u2))));
            x[i] += sum.GetElement(0);
            y[i] += sum.GetElement(1);
            z[i] += sum.GetElement(2);
        }
    }

    private double One(int axis, double seconds)
    {
        double sway = 0;
        _sways[axis].Add(new Span<double>(ref sway), new SampleGrid(seconds, 1), 0);
        return BandPart * (_bands[axis].At(seconds) + sway);
    }
}
