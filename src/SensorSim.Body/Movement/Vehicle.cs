// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
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

        SpanLanes.Multiply(sizes, BandPart);

        AddBands(block, nodes.Of(block, _bands), nodes.First);
        for (int axis = 0; axis < 3; axis++)
        {
            Span<double> target = (axis == 0 ? block.X : axis == 1 ? block.Y : block.Z).AsSpan(0, block.Count);
            Span<double> sway = block.Spare.AsSpan(0, block.Count);
            sway.Clear();
            _sways[axis].Add(sway, block.Grid, block.First);
            SpanLanes.AddProduct(target, sway, sizes);
        }
    }

    // Cubic B-splines: weights of four nodes by the place between the middle two, the same for all axes.
    private static void AddBands(MovementBlock block, ReadOnlySpan<Vector256<double>> nodes, long first)
    {
        Vector256<double> index = Vector256.Create((double)block.First) + Vector256.Create(0.0, 1, 2, 3);
        var ones = Vector256<double>.One;
        for (int i = 0; i < block.Count; i += 4)
        {
            // The arrays reach to a multiple of four; what stands there is not used.
            Vector256<double> seconds = Vector256.Create(block.Grid.StartSeconds) + (index * block.Grid.StepSeconds);
            Vector256<double> place = seconds * BandNoise.NodesPerSecond;
            Vector256<double> node = Vector256.Floor(place);
            Vector256<double> u = place - node;
            Vector256<double> v = ones - u;
            Vector256<double> u2 = u * u;
            Vector256<double> size = Vector256.LoadUnsafe(ref block.Gains[i]) * (1.0 / 6);
            Vector256<double> w0 = size * (v * (v * v));
            Vector256<double> w1 = size * (Vector256.Create(4.0) + (u2 * ((3 * u) - Vector256.Create(6.0))));
            Vector256<double> w2 = size * (ones + (3 * (u + (u2 * v))));
            Vector256<double> w3 = size * (u * u2);
            for (int lane = 0; lane < 4 && i + lane < block.Count; lane++)
            {
                ReadOnlySpan<Vector256<double>> n = nodes.Slice((int)((long)node.GetElement(lane) - 1 - first), 4);
                Vector256<double> sum = ((n[0] * w0.GetElement(lane)) + (n[1] * w1.GetElement(lane)))
                    + ((n[2] * w2.GetElement(lane)) + (n[3] * w3.GetElement(lane)));
                block.X[i + lane] += sum.GetElement(0);
                block.Y[i + lane] += sum.GetElement(1);
                block.Z[i + lane] += sum.GetElement(2);
            }

            index += Vector256.Create(4.0);
        }
    }

    private double One(int axis, double seconds)
    {
        double sway = 0;
        _sways[axis].Add(new Span<double>(ref sway), new SampleGrid(seconds, 1), 0);
        return BandPart * (_bands[axis].At(seconds) + sway);
    }
}
