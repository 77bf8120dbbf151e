// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>The nodes of a vehicle's vibration and sway about one block after the other of a grid: x, y and z, and one noise beside them, in the lanes of vectors.</summary>
/// <remarks>
/// <para>Draws that the block before had are kept; every number is the same whichever block came before.</para>
/// <para>The sway is a spline too, and a cubic B-spline is exactly one of narrower nodes: at a node of the vibration it has the value
/// f − h² f″ / 6, h the distance of these nodes (from f = (a + 4b + c)/6, f″ = (a − 2b + c)/h²).</para>
/// </remarks>
internal sealed class VehicleNodes
{
    private const int Part = 16;
    private readonly BandNoise[] _bands;
    private readonly SmoothNodes[] _sways;
    private readonly Vector256<double>[] _draws;
    private readonly Vector256<double>[] _nodes;
    private readonly double[][] _new;
    private readonly Vector256<double> _scale;
    private long _firstDraw = long.MinValue;
    private SwaySecond _even = new() { Second = long.MinValue };
    private SwaySecond _odd = new() { Second = long.MinValue };

    /// <summary>Creates room for the blocks of a grid.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="beside">A vehicle whose x is drawn beside it, if there is one.</param>
    /// <param name="besideSize">Factor of that.</param>
    public VehicleNodes(Vehicle vehicle, SampleGrid grid, Vehicle? beside, double besideSize)
    {
        // Up to three more samples than the block has are read over, and thrown away.
        int most = (int)Math.Ceiling((MovementBlock.LengthOn(grid) + 3) * grid.StepSeconds * BandNoise.NodesPerSecond) + 6;
        _bands = [.. vehicle.Bands, .. beside?.Bands[..1] ?? []];
        _sways = [.. vehicle.Sways.Concat(beside?.Sways[..1] ?? []).Select(s => new SmoothNodes(s))];
        _scale = Vector256.Create(1, 1, 1, besideSize);
        _nodes = new Vector256<double>[most];

        // Begun and ended at multiples of sixteen, which are drawn at once.
        _draws = new Vector256<double>[(most + (2 * BandNoise.ReachNodes) + (2 * Part)) & -Part];
        _new = [.. Enumerable.Range(0, 4).Select(_ => new double[_draws.Length])];
    }

    /// <summary>Node of the first element of <see cref="Of"/>.</summary>
    public long First { get; private set; }

    /// <summary>The nodes that the samples of a block lie between, those up to the next multiple of four included.</summary>
    public ReadOnlySpan<Vector256<double>> Of(MovementBlock block)
    {
        double end = block.Grid.Seconds(block.First + block.Count + 2);
        First = (long)Math.Floor(block.BeginSeconds * BandNoise.NodesPerSecond) - 1;
        int count = (int)((long)Math.Floor(end * BandNoise.NodesPerSecond) + 3 - First);
        long firstDraw = First - BandNoise.ReachNodes;
        Draw(firstDraw & -Part);
        Span<Vector256<double>> nodes = _nodes.AsSpan(0, count);
        Fill(nodes, _draws.AsSpan((int)(firstDraw - _firstDraw)));
        return nodes;
    }

    // Draws less the mean about each node, and the sway on top: each sum waits for the one before, the sway does not.
    private void Fill(Span<Vector256<double>> nodes, ReadOnlySpan<Vector256<double>> draws)
    {
        const int PerSway = (int)(Vehicle.SwayNodeSeconds * BandNoise.NodesPerSecond);
        const double H = 1.0 / PerSway;
        Vector256<double> sum = Sum(draws[..BandNoise.Window]);

        // One draw more than is wanted is read over.
        ref Vector256<double> draw = ref MemoryMarshal.GetReference(draws[..(nodes.Length + BandNoise.Window)]);
        ref Vector256<double> target = ref MemoryMarshal.GetReference(nodes);
        for (int i = 0; i < nodes.Length;)
        {
            long node = First + i;
            long second = (long)Math.Floor(node * H);
            ref readonly SwaySecond sway = ref Sway(second);
            int end = (int)Math.Min(nodes.Length, ((second + 1) * PerSway) - First);

            // A cubic by its differences from node to node, begun anew in each second and block.
            double place = (node - (second * PerSway)) * H;
            Vector256<double> c3 = sway.C3;
            Vector256<double> value = sway.C0 + (place * (sway.C1 + (place * (sway.C2 + (place * c3)))));
            Vector256<double> grows = H * ((sway.C1 + (H * (sway.C2 + (H * c3)))) + (place * (((2 * sway.C2) + (3 * H * c3)) + (3 * place * c3))));
            Vector256<double> bend = (H * H) * (((2 * sway.C2) + (6 * H * c3)) + (6 * place * c3));
            Vector256<double> third = (6 * H * H * H) * c3;
            for (; i < end; i++)
            {
                target = (Unsafe.Add(ref draw, BandNoise.ReachNodes) - (sum * (1.0 / BandNoise.Window))) + value;
                sum += Unsafe.Add(ref draw, BandNoise.Window) - draw;
                value += grows;
                grows += bend;
                bend += third;
                draw = ref Unsafe.Add(ref draw, 1);
                target = ref Unsafe.Add(ref target, 1);
            }
        }
    }

    private static Vector256<double> Sum(ReadOnlySpan<Vector256<double>> draws)
    {
        Vector256<double> sum = Vector256<double>.Zero;
        foreach (Vector256<double> draw in draws)
        {
            sum += draw;
        }

        return sum;
    }

    private ref readonly SwaySecond Sway(long second)
    {
        const double H = 1.0 / (Vehicle.SwayNodeSeconds * BandNoise.NodesPerSecond);
        ref SwaySecond held = ref (second & 1) == 0 ? ref _even : ref _odd;
        if (held.Second != second)
        {
            SmoothCubic x = _sways[0].Cubic(second);
            SmoothCubic y = _sways[1].Cubic(second);
            SmoothCubic z = _sways[2].Cubic(second);
            SmoothCubic w = _sways.Length > 3 ? _sways[3].Cubic(second) : default;
            Vector256<double> c2 = _scale * Vector256.Create(x.C2, y.C2, z.C2, w.C2);
            Vector256<double> c3 = _scale * Vector256.Create(x.C3, y.C3, z.C3, w.C3);
            Vector256<double> c1 = (_scale * Vector256.Create(x.C1, y.C1, z.C1, w.C1)) - (c3 * (H * H));
            Vector256<double> c0 = (_scale * Vector256.Create(x.C0, y.C0, z.C0, w.C0)) - (c2 * (H * H / 3));
            held = new SwaySecond { Second = second, C0 = c0, C1 = c1, C2 = c2, C3 = c3 };
        }

        return ref held;
    }

    private void Draw(long first)
    {
        long moved = first - _firstDraw;
        int kept = _firstDraw != long.MinValue && moved >= 0 && moved < _draws.Length ? _draws.Length - (int)moved : 0;
        _draws.AsSpan(_draws.Length - kept, kept).CopyTo(_draws);
        int count = _draws.Length - kept;
        for (int axis = 0; axis < _bands.Length; axis++)
        {
            _bands[axis].Draw(_new[axis].AsSpan(0, count), first + kept);
        }

        ref double one = ref MemoryMarshal.GetArrayDataReference(_new[0]);
        ref double two = ref MemoryMarshal.GetArrayDataReference(_new[1]);
        ref double three = ref MemoryMarshal.GetArrayDataReference(_new[2]);
        ref double four = ref MemoryMarshal.GetArrayDataReference(_new[3]);
        ref Vector256<double> draws = ref MemoryMarshal.GetReference(_draws.AsSpan(kept));
        Vector256<double> scale = _scale;
        for (int i = 0; i < count; i += 4)
        {
            Vector256<double> x = Vector256.LoadUnsafe(ref one, (nuint)i);
            Vector256<double> y = Vector256.LoadUnsafe(ref two, (nuint)i);
            Vector256<double> z = Vector256.LoadUnsafe(ref three, (nuint)i);
            Vector256<double> w = Vector256.LoadUnsafe(ref four, (nuint)i);
            LaneTranspose.Exchange(ref x, ref y, ref z, ref w);
            ref Vector256<double> next = ref Unsafe.Add(ref draws, i);
            next = x * scale;
            Unsafe.Add(ref next, 1) = y * scale;
            Unsafe.Add(ref next, 2) = z * scale;
            Unsafe.Add(ref next, 3) = w * scale;
        }

        _firstDraw = first;
    }

    // A second of the sway of all noises, as nodes of the vibration have it: factors of the powers of the time since its begin.
    private struct SwaySecond
    {
        public long Second;
        public Vector256<double> C0;
        public Vector256<double> C1;
        public Vector256<double> C2;
        public Vector256<double> C3;
    }
}
