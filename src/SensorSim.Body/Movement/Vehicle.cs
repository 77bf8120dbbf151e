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
        double[] one = block.Rows[0];
        double[] two = block.Rows[1];
        double[] three = block.Rows[2];
        double[]? four = block.Beside?.Rows[0];

        // Cubic B-splines: weights of four nodes by the place between the middle two, the same for all noises.
        Span<Vector256<double>> weights = stackalloc Vector256<double>[4];
        ReadOnlySpan<double> w = MemoryMarshal.Cast<Vector256<double>, double>(weights);
        var first = Vector256.Create(nodes.First + 1.0);
        var ones = Vector256<double>.One;
        for (int i = 0; i < block.Count; i += 4)
        {
            Vector256<double> place = block.FourSeconds(i) * BandNoise.NodesPerSecond;
            Vector256<double> node = Vector256.Floor(place);
            Vector256<double> u = place - node;
            Vector256<double> v = ones - u;
            Vector256<double> u2 = u * u;
            Vector256<double> size = Vector256.LoadUnsafe(ref block.Gains[i]) * (BandPart / 6);
            weights[0] = size * (v * (v * v));
            weights[1] = size * (Vector256.Create(4.0) + (u2 * ((3 * u) - Vector256.Create(6.0))));
            weights[2] = size * (ones + (3 * (u + (u2 * v))));
            weights[3] = size * (u * u2);

            // Whole numbers stand in the lowest bits when 2^52 is added.
            Vector256<long> at = ((node - first) + Vector256.Create(TwoTo52)).AsInt64();
            Vector256<double> x = Sum(own, w, at, 0);
            Vector256<double> y = Sum(own, w, at, 1);
            Vector256<double> z = Sum(own, w, at, 2);
            Vector256<double> rest = Sum(own, w, at, 3);
            LaneTranspose.Exchange(ref x, ref y, ref z, ref rest);
            (Vector256.LoadUnsafe(ref one[i]) + x).StoreUnsafe(ref one[i]);
            (Vector256.LoadUnsafe(ref two[i]) + y).StoreUnsafe(ref two[i]);
            (Vector256.LoadUnsafe(ref three[i]) + z).StoreUnsafe(ref three[i]);
            if (four is not null)
            {
                (Vector256.LoadUnsafe(ref four[i]) + rest).StoreUnsafe(ref four[i]);
            }
        }
    }

    // Sum of four nodes at one of four samples, all noises at once.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Sum(ReadOnlySpan<Vector256<double>> nodes, ReadOnlySpan<double> weights, Vector256<long> at, int sample)
    {
        ReadOnlySpan<Vector256<double>> n = nodes.Slice(unchecked((int)at.GetElement(sample)), 4);
        return ((n[0] * weights[sample]) + (n[1] * weights[4 + sample])) + ((n[2] * weights[8 + sample]) + (n[3] * weights[12 + sample]));
    }

    private double One(int axis, double seconds)
    {
        double sway = 0;
        Sways[axis].Add(new Span<double>(ref sway), new SampleGrid(seconds, 1), 0);
        return BandPart * (Bands[axis].At(seconds) + sway);
    }
}
