// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>A vehicle: on each axis by itself broad vibration and a slow sway, whose powers add up to the knob's.</summary>
internal sealed class Vehicle
{
    /// <summary>Time between the nodes of the sway [s].</summary>
    public const double SwayNodeSeconds = 1;

    // 0.96² + 0.28² = 1.
    private const double BandPart = 0.96;
    private const double SwayPart = 0.28;
    private const double TwoTo52 = 4503599627370496.0;
    private readonly LiveSize _size;

    public Vehicle(KeyValues values, ulong seed)
    {
        _size = new LiveSize(values.Course(HandMovementKeys.VehicleGRms));
        Bands = new BandNoise[3];
        Sways = new SmoothNoise[3];
        for (int axis = 0; axis < 3; axis++)
        {
            Bands[axis] = new BandNoise(new KeyedRandom(seed, "movement.vehicle_band_" + "xyz"[axis]));
            Sways[axis] = new SmoothNoise(new KeyedRandom(seed, "movement.vehicle_sway_" + "xyz"[axis]), SwayNodeSeconds, SwayPart / BandPart);
        }
    }

    /// <summary>Vibration of rms 1 along x, y and z.</summary>
    public BandNoise[] Bands { get; }

    /// <summary>Sway beside it along x, y and z.</summary>
    public SmoothNoise[] Sways { get; }

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => _size.IsOff;

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        Axes all = new(One(0, seconds), One(1, seconds), One(2, seconds));
        return _size.At(seconds) * all;
    }

    /// <summary>Adds the acceleration to a block and to the one beside it.</summary>
    /// <param name="block">The block.</param>
    /// <param name="nodes">Nodes about the blocks of its grid.</param>
    public void Add(MovementBlock block, VehicleNodes nodes)
    {
        Span<double> sizes = block.Gains.AsSpan(0, block.Count);
        if (!_size.Fill(block, sizes))
        {
            return;
        }

        ReadOnlySpan<Vector256<double>> own = nodes.Of(block);
        ref double sizesOfAll = ref MemoryMarshal.GetArrayDataReference(block.Gains);
        ref double one = ref MemoryMarshal.GetArrayDataReference(block.Rows[0]);
        ref double two = ref MemoryMarshal.GetArrayDataReference(block.Rows[1]);
        ref double three = ref MemoryMarshal.GetArrayDataReference(block.Rows[2]);
        bool hasBeside = block.Beside is not null;
        ref double four = ref hasBeside ? ref MemoryMarshal.GetArrayDataReference(block.Beside!.Rows[0]) : ref one;

        // Cubic B-splines: weights of four nodes by the place between the middle two, the same for all noises.
        Span<Vector256<double>> weights = stackalloc Vector256<double>[4];
        ref Vector256<double> weight = ref MemoryMarshal.GetReference(weights);
        ref double w = ref Unsafe.As<Vector256<double>, double>(ref weight);
        var first = Vector256.Create(nodes.First + 1.0);
        var ones = Vector256<double>.One;
        var gridStart = Vector256.Create(block.Grid.StartSeconds);
        var gridStep = Vector256.Create(block.Grid.StepSeconds);
        Vector256<double> index = Vector256.Create((double)block.First) + Vector256.Create(0.0, 1, 2, 3);
        int count = block.Count;
        for (int i = 0; i < count; i += 4)
        {
            // As MovementBlock.FourSeconds.
            Vector256<double> place = (gridStart + (index * gridStep)) * BandNoise.NodesPerSecond;
            index += Vector256.Create(4.0);
            Vector256<double> node = Vector256.Floor(place);
            Vector256<double> u = place - node;
            Vector256<double> v = ones - u;
            Vector256<double> u2 = u * u;
            Vector256<double> size = Vector256.LoadUnsafe(ref sizesOfAll, (nuint)i) * (BandPart / 6);
            weight = size * (v * (v * v));
            Unsafe.Add(ref weight, 1) = size * (Vector256.Create(4.0) + (u2 * ((3 * u) - Vector256.Create(6.0))));
            Unsafe.Add(ref weight, 2) = size * (ones + (3 * (u + (u2 * v))));
            Unsafe.Add(ref weight, 3) = size * (u * u2);

            // Whole numbers stand in the lowest bits when 2^52 is added. Later samples lie between later nodes: if the first and the last
            // of four have nodes, all have.
            Vector256<int> at = ((node - first) + Vector256.Create(TwoTo52)).AsInt32();
            ref Vector256<double> n = ref MemoryMarshal.GetReference(own[at.GetElement(0)..(at.GetElement(6) + 4)]);
            Vector256<double> x = Sum(ref n, ref w);
            Vector256<double> y = Sum(ref Unsafe.Add(ref n, at.GetElement(2) - at.GetElement(0)), ref Unsafe.Add(ref w, 1));
            Vector256<double> z = Sum(ref Unsafe.Add(ref n, at.GetElement(4) - at.GetElement(0)), ref Unsafe.Add(ref w, 2));
            Vector256<double> rest = Sum(ref Unsafe.Add(ref n, at.GetElement(6) - at.GetElement(0)), ref Unsafe.Add(ref w, 3));
            LaneTranspose.Exchange(ref x, ref y, ref z, ref rest);
            (Vector256.LoadUnsafe(ref one, (nuint)i) + x).StoreUnsafe(ref one, (nuint)i);
            (Vector256.LoadUnsafe(ref two, (nuint)i) + y).StoreUnsafe(ref two, (nuint)i);
            (Vector256.LoadUnsafe(ref three, (nuint)i) + z).StoreUnsafe(ref three, (nuint)i);
            if (hasBeside)
            {
                (Vector256.LoadUnsafe(ref four, (nuint)i) + rest).StoreUnsafe(ref four, (nuint)i);
            }
        }
    }

    // Sum of four nodes at one of four samples, all noises at once; weights of a node lie four apart. Nodes come second: they are read by the
    // multiplication itself.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Sum(ref Vector256<double> n, ref double weight) =>
        ((Vector256.Create(weight) * n) + (Vector256.Create(Unsafe.Add(ref weight, 4)) * Unsafe.Add(ref n, 1)))
        + ((Vector256.Create(Unsafe.Add(ref weight, 8)) * Unsafe.Add(ref n, 2)) + (Vector256.Create(Unsafe.Add(ref weight, 12)) * Unsafe.Add(ref n, 3)));

    private double One(int axis, double seconds)
    {
        double sway = 0;
        Sways[axis].Add(new Span<double>(ref sway), new SampleGrid(seconds, 1), 0);
        return BandPart * (Bands[axis].At(seconds) + sway);
    }
}
