// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
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

    /// <summary>Sine and cosine of the turn from four samples of a grid to the next.</summary>
    public (double Sin, double Cos) StepOf(SampleGrid grid)
    {
        PortableMath.SinCosTurns(4 * grid.StepSeconds * _hertz, out double sin, out double cos);
        return (sin, cos);
    }

    // All samples from one on that lie, four by four, between two nodes. Exact at the first four, from there turned by constant angles.
    private int AddBetweenNodes(MovementBlock block, int i, double node)
    {
        ref readonly MovementMemory.TremorSizes own = ref block.Memory.Sizes((long)node);
        ref readonly MovementMemory.TremorSizes beside = ref block.Beside is null ? ref own : ref block.Beside.Memory.Sizes((long)node);
        var ownSine = new CubicLanes(own.Sine);
        var ownCosine = new CubicLanes(own.Cosine);
        var besideSine = new CubicLanes(beside.Sine);
        var besideCosine = new CubicLanes(beside.Cosine);
        var rows = new Rows(block);
        var stepSin = Vector256.Create(block.Memory.TremorStep.Sin);
        var stepCos = Vector256.Create(block.Memory.TremorStep.Cos);
        PortableMath.SinCosTurns(block.FourSeconds(i) * _hertz, out Vector256<double> sin, out Vector256<double> cos);
        var here = Vector256.Create(node);
        double next = (node + 1) * NodeSeconds;
        int end = block.EndSeconds < next ? block.Count : (int)(block.Grid.FirstAtOrAfter(next) - block.First) & ~3;
        var gridStart = Vector256.Create(block.Grid.StartSeconds);
        var gridStep = Vector256.Create(block.Grid.StepSeconds);
        Vector256<double> index = Vector256.Create((double)(block.First + i)) + Vector256.Create(0.0, 1, 2, 3);
        for (; i < end; i += 4)
        {
            // As MovementBlock.FourSeconds.
            Vector256<double> u = ((gridStart + (index * gridStep)) * (1 / NodeSeconds)) - here;
            index += Vector256.Create(4.0);
            rows.AddOwn(i, ownSine.At(u), ownCosine.At(u), sin, cos);
            if (rows.HasBeside)
            {
                rows.AddBeside(i, besideSine.At(u), besideCosine.At(u), sin, cos);
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
        var rows = new Rows(block);
        PortableMath.SinCosTurns(seconds * _hertz, out Vector256<double> sin, out Vector256<double> cos);
        Across(block.Memory, node, u, out Vector256<double> a, out Vector256<double> b);
        rows.AddOwn(i, a, b, sin, cos);
        if (rows.HasBeside)
        {
            Across(block.Beside!.Memory, node, u, out a, out b);
            rows.AddBeside(i, a, b, sin, cos);
        }

        return i + 4;
    }

    // Both sizes at four places that do not all lie between the same nodes.
    private static void Across(MovementMemory memory, Vector256<double> node, Vector256<double> u, out Vector256<double> a, out Vector256<double> b)
    {
        a = default;
        b = default;
        for (double here = node.GetElement(0); here <= node.GetElement(3); here++)
        {
            ref readonly MovementMemory.TremorSizes sizes = ref memory.Sizes((long)here);
            Vector256<double> isHere = Vector256.Equals(node, Vector256.Create(here));
            a = Vector256.ConditionalSelect(isHere, sizes.Sine.At(u), a);
            b = Vector256.ConditionalSelect(isHere, sizes.Cosine.At(u), b);
        }
    }

    // The rows of a block, which are the three axes, and that of the one beside it, along its direction; with the sizes in its gains.
    private readonly ref struct Rows
    {
        private readonly ref double _gains;
        private readonly ref double _x;
        private readonly ref double _y;
        private readonly ref double _z;
        private readonly ref double _beside;
        private readonly Vector256<double> _besideAlong;
        private readonly Vector256<double> _besideAcross;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Rows(MovementBlock block)
        {
            _gains = ref MemoryMarshal.GetArrayDataReference(block.Gains);
            _x = ref MemoryMarshal.GetArrayDataReference(block.Rows[0]);
            _y = ref MemoryMarshal.GetArrayDataReference(block.Rows[1]);
            _z = ref MemoryMarshal.GetArrayDataReference(block.Rows[2]);
            HasBeside = block.Beside is not null;
            if (block.Beside is not null)
            {
                Axes direction = block.Beside.Directions[0];
                _beside = ref MemoryMarshal.GetArrayDataReference(block.Beside.Rows[0]);
                _besideAlong = Vector256.Create((AlongX * direction.X) + (AlongZ * direction.Z));
                _besideAcross = Vector256.Create(AlongY * direction.Y);
            }
        }

        public bool HasBeside { get; }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void AddOwn(int i, Vector256<double> a, Vector256<double> b, Vector256<double> sin, Vector256<double> cos)
        {
            nuint at = (nuint)i;
            Vector256<double> gain = Vector256.LoadUnsafe(ref _gains, at);
            Vector256<double> along = gain * ((a * sin) + (b * cos));
            Vector256<double> across = gain * ((a * cos) - (b * sin));
            (Vector256.LoadUnsafe(ref _x, at) + (along * AlongX)).StoreUnsafe(ref _x, at);
            (Vector256.LoadUnsafe(ref _y, at) + (across * AlongY)).StoreUnsafe(ref _y, at);
            (Vector256.LoadUnsafe(ref _z, at) + (along * AlongZ)).StoreUnsafe(ref _z, at);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void AddBeside(int i, Vector256<double> a, Vector256<double> b, Vector256<double> sin, Vector256<double> cos)
        {
            nuint at = (nuint)i;
            Vector256<double> gain = Vector256.LoadUnsafe(ref _gains, at);
            Vector256<double> along = gain * ((a * sin) + (b * cos));
            Vector256<double> across = gain * ((a * cos) - (b * sin));
            (Vector256.LoadUnsafe(ref _beside, at) + ((along * _besideAlong) + (across * _besideAcross))).StoreUnsafe(ref _beside, at);
        }
    }
}
