// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
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
    private readonly double _hertz;

    public Tremor(KeyValues values, ulong seed)
    {
        _size = new LiveSize(values.Course(HandMovementKeys.TremorG));
        _hertz = values[HandMovementKeys.TremorHz];
        double rms = Math.Sqrt(0.5);
        Sine = new SmoothNoise(new KeyedRandom(seed, "movement.tremor_sine"), NodeSeconds, rms);
        Cosine = new SmoothNoise(new KeyedRandom(seed, "movement.tremor_cosine"), NodeSeconds, rms);
    }

    /// <summary>Size of the sine.</summary>
    public SmoothNoise Sine { get; }

    /// <summary>Size of the cosine.</summary>
    public SmoothNoise Cosine { get; }

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => _size.IsOff;

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        double a = 0;
        double b = 0;
        var here = new SampleGrid(seconds, 1);
        Sine.Add(new Span<double>(ref a), here, 0);
        Cosine.Add(new Span<double>(ref b), here, 0);
        PortableMath.SinCosTurns(_hertz * seconds, out double sin, out double cos);
        double along = (a * sin) + (b * cos);
        return _size.At(seconds) * new Axes(AlongX * along, AlongY * ((a * cos) - (b * sin)), AlongZ * along);
    }

    /// <summary>Adds the acceleration to a block, and to the one beside it that of its own sizes.</summary>
    public void Add(MovementBlock block)
    {
        if (IsOff || !_size.Fill(block, block.Gains.AsSpan(0, block.Count)))
        {
            return;
        }

        for (int i = 0; i < block.Count;)
        {
            Vector256<double> node = Vector256.Floor(block.FourSeconds(i) * (1 / NodeSeconds));
            double first = node.GetElement(0);
            i = first == node.GetElement(3) ? AddBetweenNodes(block, i, first) : AddAcrossNodes(block, i, node);
        }
    }

    // All samples from one on that lie, four by four, between two nodes. Exact at the first four, from there turned by constant angles.
    private int AddBetweenNodes(MovementBlock block, int i, double node)
    {
        var own = new Cubics(block.Memory, node);
        Cubics beside = block.Beside is null ? default : new Cubics(block.Beside.Memory, node);
        var rows = new Rows(block);
        PortableMath.SinCosTurns(4 * block.Grid.StepSeconds * _hertz, out double stepSin, out double stepCos);
        PortableMath.SinCosTurns(block.FourSeconds(i) * _hertz, out Vector256<double> sin, out Vector256<double> cos);
        var here = Vector256.Create(node);
        long left = block.Grid.FirstAtOrAfter((node + 1) * NodeSeconds) - block.First;
        int end = left >= block.Count ? block.Count : (int)left & ~3;
        for (; i < end; i += 4)
        {
            Vector256<double> u = (block.FourSeconds(i) * (1 / NodeSeconds)) - here;
            Vector256<double> gain = Vector256.LoadUnsafe(ref block.Gains[i]);
            rows.AddOwn(i, gain, own.Sine.At(u), own.Cosine.At(u), sin, cos);
            if (block.Beside is not null)
            {
                rows.AddBeside(i, gain, beside.Sine.At(u), beside.Cosine.At(u), sin, cos);
            }

            Vector256<double> turned = (sin * stepCos) + (cos * stepSin);
            cos = (cos * stepCos) - (sin * stepSin);
            sin = turned;
        }

        return i;
    }

    // Four samples that do not all lie between the same nodes.
    private int AddAcrossNodes(MovementBlock block, int i, Vector256<double> node)
    {
        Vector256<double> seconds = block.FourSeconds(i);
        Vector256<double> u = (seconds * (1 / NodeSeconds)) - node;
        Vector256<double> gain = Vector256.LoadUnsafe(ref block.Gains[i]);
        var rows = new Rows(block);
        PortableMath.SinCosTurns(seconds * _hertz, out Vector256<double> sin, out Vector256<double> cos);
        Cubics.Across(block.Memory, node, u, out Vector256<double> a, out Vector256<double> b);
        rows.AddOwn(i, gain, a, b, sin, cos);
        if (block.Beside is not null)
        {
            Cubics.Across(block.Beside.Memory, node, u, out a, out b);
            rows.AddBeside(i, gain, a, b, sin, cos);
        }

        return i + 4;
    }

    // The rows of a block, which are the three axes, and that of the one beside it, along its direction.
    private readonly ref struct Rows
    {
        private readonly Span<double> _x;
        private readonly Span<double> _y;
        private readonly Span<double> _z;
        private readonly Span<double> _beside;
        private readonly double _besideAlong;
        private readonly double _besideAcross;

        public Rows(MovementBlock block)
        {
            _x = block.Rows[0];
            _y = block.Rows[1];
            _z = block.Rows[2];
            if (block.Beside is not null)
            {
                Axes direction = block.Beside.Directions[0];
                _beside = block.Beside.Rows[0];
                _besideAlong = (AlongX * direction.X) + (AlongZ * direction.Z);
                _besideAcross = AlongY * direction.Y;
            }
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void AddOwn(int i, Vector256<double> gain, Vector256<double> a, Vector256<double> b, Vector256<double> sin, Vector256<double> cos)
        {
            Vector256<double> along = gain * ((a * sin) + (b * cos));
            Vector256<double> across = gain * ((a * cos) - (b * sin));
            (Vector256.LoadUnsafe(ref _x[i]) + (along * AlongX)).StoreUnsafe(ref _x[i]);
            (Vector256.LoadUnsafe(ref _y[i]) + (across * AlongY)).StoreUnsafe(ref _y[i]);
            (Vector256.LoadUnsafe(ref _z[i]) + (along * AlongZ)).StoreUnsafe(ref _z[i]);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void AddBeside(int i, Vector256<double> gain, Vector256<double> a, Vector256<double> b, Vector256<double> sin, Vector256<double> cos)
        {
            Vector256<double> along = gain * ((a * sin) + (b * cos));
            Vector256<double> across = gain * ((a * cos) - (b * sin));
            (Vector256.LoadUnsafe(ref _beside[i]) + ((along * _besideAlong) + (across * _besideAcross))).StoreUnsafe(ref _beside[i]);
        }
    }

    // Both sizes between two nodes.
    private readonly struct Cubics(MovementMemory memory, double node)
    {
        public readonly SmoothCubic Sine = memory.TremorSine.Cubic((long)node);
        public readonly SmoothCubic Cosine = memory.TremorCosine.Cubic((long)node);

        // Both at four places that do not all lie between the same nodes.
        public static void Across(MovementMemory memory, Vector256<double> node, Vector256<double> u, out Vector256<double> a, out Vector256<double> b)
        {
            a = default;
            b = default;
            for (double here = node.GetElement(0); here <= node.GetElement(3); here++)
            {
                var cubics = new Cubics(memory, here);
                Vector256<double> isHere = Vector256.Equals(node, Vector256.Create(here));
                a = Vector256.ConditionalSelect(isHere, cubics.Sine.At(u), a);
                b = Vector256.ConditionalSelect(isHere, cubics.Cosine.At(u), b);
            }
        }
    }
}
