// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Body.Movement;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Optics;

/// <summary>Movement artefact in the absorbance: acceleration through tissue that gives way slowly.</summary>
/// <remarks>
/// <para>The tissue is a first-order low-pass at 2 Hz on a weighted sum of the axes without the posture's gravity (choices of this
/// project). The filter is the exact response to a cubic through four neighbouring samples, at 100 Hz of its clock or more: off by less than 1e-3 of a
/// line up to 8 Hz.</para>
/// <para>The scale is such that the reference gait of the movement, steady, has an rms of 1: from the lines' closed form, never from what
/// was drawn. Its state runs through from two seconds before the first sample asked for.</para>
/// </remarks>
internal sealed class TissueArtefact
{
    private const double CornerHz = 2;
    private const double LargestSharedOffsetSeconds = 1e-3;
    private const int PreRollBlocks = 2;
    private const int Lines = 60;
    private const double Negligible = 1e-30;
    private const double LeastPower = 1e-20;

    private readonly MovementModel _model;
    private readonly MovementModel? _unmeasured;
    private readonly SampleGrid _slot;
    private readonly Axes _shares;
    private readonly MovementGrid _movement;
    private readonly int _perSample;
    private readonly CubicLowPass _tissue;
    private readonly Path[] _paths;
    private readonly long[] _made = new long[MovementGrid.Kept];
    private long _nextBlock = long.MinValue;
    private long _drivenBlock = long.MinValue;

    /// <summary>Creates the artefact of a slot.</summary>
    /// <param name="movement">Movement of the body.</param>
    /// <param name="unmeasured">Movement of the same knobs that nobody measures, if it acts.</param>
    /// <param name="slot">Sampling instants.</param>
    /// <param name="shares">Shares of the axes; where they take nothing of the gait there is no artefact.</param>
    public TissueArtefact(MovementModel movement, MovementModel? unmeasured, SampleGrid slot, Axes shares)
    {
        _model = movement;
        _unmeasured = unmeasured;
        _shares = shares;
        _slot = slot;
        _perSample = (int)Math.Max(1, Math.Ceiling((MovementGrid.LeastHz * slot.StepSeconds) - 1e-9));
        var grid = new SampleGrid(slot.StartSeconds, slot.StepSeconds / _perSample);
        _movement = unmeasured is null ? new MovementGrid(movement, grid, hasGravity: false) : new MovementGrid(movement, grid, unmeasured, shares);
        _tissue = new CubicLowPass(CornerHz, grid.StepSeconds);
        Array.Fill(_made, long.MinValue);

        // Up to a multiple of four; two samples before the block and one after it.
        int capacity = (_movement.BlockLength + 3) & ~3;
        _paths = unmeasured is null
            ? [new Path(Gain(movement, shares), capacity)]
            : [new Path(Gain(movement, shares), capacity), new Path(Gain(unmeasured, shares), capacity)];
    }

    /// <summary>The movement as it is drawn for the tissue, without the posture's gravity.</summary>
    public MovementGrid Movement => _movement;

    /// <summary>Adds the artefact [absorbance].</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; forward only, at most a stretch back.</param>
    /// <param name="rms">Root mean square in the reference gait of what the body's movement makes [absorbance].</param>
    /// <param name="unmeasuredRms">Likewise of what the other one makes.</param>
    public void Add(Span<double> buffer, long firstIndex, double rms, double unmeasuredRms)
    {
        // Also with an rms of 0: slots that share this must find the same state, whichever of them asks first for more.
        if (!_model.IsMoving)
        {
            return;
        }

        int length = _movement.BlockLength;
        for (int done = 0; done < buffer.Length;)
        {
            long index = (firstIndex + done) * _perSample;
            long block = index / length;
            int from = (int)(index - (block * length));
            int count = Math.Min((length - from + _perSample - 1) / _perSample, buffer.Length - done);
            Make(block);
            ReadOnlySpan<double> own = _paths[0].Block(block).AsSpan(from);
            if (_paths.Length == 1)
            {
                AddPath(buffer.Slice(done, count), own, rms);
            }
            else if (_perSample == 1)
            {
                AddBoth(buffer.Slice(done, count), own, rms, _paths[1].Block(block).AsSpan(from), unmeasuredRms);
            }
            else
            {
                AddPath(buffer.Slice(done, count), own, rms);
                AddPath(buffer.Slice(done, count), _paths[1].Block(block).AsSpan(from), unmeasuredRms);
            }

            done += count;
        }
    }

    /// <summary>Whether another slot's artefact may stand for this one: the same movement at most a millisecond apart.</summary>
    public bool IsAlike(TissueArtefact other) => ReferenceEquals(_model, other._model)
        && _slot.StepSeconds == other._slot.StepSeconds
        && Math.Abs(_slot.StartSeconds - other._slot.StartSeconds) <= LargestSharedOffsetSeconds;

    /// <summary>An independent copy with the same state.</summary>
    public TissueArtefact Copy()
    {
        var copy = new TissueArtefact(_model, _unmeasured, _slot, _shares)
        {
            _nextBlock = _nextBlock,
        };
        _made.CopyTo(copy._made, 0);
        for (int i = 0; i < _paths.Length; i++)
        {
            copy._paths[i].CopyFrom(_paths[i]);
        }

        return copy;
    }

    // One after the other at each sample, as if by paths; four at a time and the rest one by one.
    private static void AddBoth(Span<double> target, ReadOnlySpan<double> one, double oneRms, ReadOnlySpan<double> two, double twoRms)
    {
        one = one[..target.Length];
        two = two[..target.Length];
        ref double to = ref MemoryMarshal.GetReference(target);
        ref double a = ref MemoryMarshal.GetReference(one);
        ref double b = ref MemoryMarshal.GetReference(two);
        int i = 0;
        for (; i + 4 <= target.Length; i += 4)
        {
            nuint at = (nuint)i;
            Vector256<double> first = Vector256.LoadUnsafe(ref to, at) + (Vector256.LoadUnsafe(ref a, at) * oneRms);
            (first + (Vector256.LoadUnsafe(ref b, at) * twoRms)).StoreUnsafe(ref to, at);
        }

        for (; i < target.Length; i++)
        {
            target[i] += oneRms * one[i];
            target[i] += twoRms * two[i];
        }
    }

    private void AddPath(Span<double> target, ReadOnlySpan<double> source, double rms)
    {
        if (_perSample == 1)
        {
            SpanLanes.AddProduct(target, source, rms);
            return;
        }

        for (int i = 0; i < target.Length; i++)
        {
            target[i] += rms * source[i * _perSample];
        }
    }

    private static double Gain(MovementModel movement, Axes shares)
    {
        double power = ReferencePower(movement, shares);
        return power < LeastPower ? 0 : 1 / Math.Sqrt(power);
    }

    // Power of the reference gait behind the tissue: lines at multiples of the stride, each through 1 / (1 + j f / corner).
    private static double ReferencePower(MovementModel movement, Axes shares)
    {
        double power = 0;
        for (int multiple = 1; multiple <= Lines; multiple++)
        {
            movement.ReferenceLine(0, multiple, out double forwardSine, out double forwardCosine);
            movement.ReferenceLine(1, multiple, out double sidewaysSine, out double sidewaysCosine);
            movement.ReferenceLine(2, multiple, out double verticalSine, out double verticalCosine);
            double s = Driven(shares, forwardSine, sidewaysSine, verticalSine);
            double c = Driven(shares, forwardCosine, sidewaysCosine, verticalCosine);
            double r = multiple * 0.5 * movement.ReferenceCadenceHz / CornerHz;
            power += 0.5 * ((s * s) + (c * c)) / (1 + (r * r));
        }

        return power * movement.ReferencePowerGain;
    }

    private static double Driven(in Axes shares, double x, double y, double z) => ((shares.X * x) + (shares.Z * z)) + (shares.Y * y);

    private void Make(long block)
    {
        if (_made[block & (MovementGrid.Kept - 1)] == block)
        {
            return;
        }

        if (_nextBlock != block)
        {
            foreach (Path path in _paths)
            {
                path.State = 0;
            }

            _nextBlock = block - PreRollBlocks;
        }

        while (_nextBlock <= block)
        {
            MakeNext();
        }
    }

    private void MakeNext()
    {
        long block = _nextBlock++;
        int length = _movement.BlockLength;
        bool follows = _drivenBlock == block - 1;
        _drivenBlock = block;

        // The block before and the block itself first: the one after is drawn over the one before.
        for (int i = 0; i < _paths.Length; i++)
        {
            double[] drive = _paths[i].Drive;
            if (follows)
            {
                (drive[0], drive[1]) = (drive[length], drive[length + 1]);
            }
            else
            {
                Drive(i, block - 1, length - 2, drive.AsSpan(0, 2));
            }

            Drive(i, block, 0, drive.AsSpan(2, length));
        }

        for (int i = 0; i < _paths.Length; i++)
        {
            Drive(i, block + 1, 0, _paths[i].Drive.AsSpan(length + 2, 1));
        }

        if (_paths.Length == 1)
        {
            _tissue.Apply(_paths[0].Drive, _paths[0].Block(block), _paths[0].State, _paths[0].Gain);
        }
        else
        {
            ApplyBoth(_tissue, _paths[0], _paths[1], block);
        }

        foreach (Path path in _paths)
        {
            // Before it goes denormal: within a second it shrinks by five orders at most.
            double state = path.Block(block)[length - 1];
            path.State = Math.Abs(state) < Negligible ? 0 : state;
        }

        _made[block & (MovementGrid.Kept - 1)] = block;
    }

    // Each as CubicLowPass.Apply does it: while one path waits for its last output, the other goes on.
    private static void ApplyBoth(in CubicLowPass tissue, Path one, Path two, long block)
    {
        double[] target = one.Block(block);
        ref double a = ref MemoryMarshal.GetArrayDataReference(one.Drive);
        ref double b = ref MemoryMarshal.GetArrayDataReference(two.Drive);
        ref double toA = ref MemoryMarshal.GetArrayDataReference(target);
        ref double toB = ref MemoryMarshal.GetArrayDataReference(two.Block(block));
        var outputsA = new OnePoleLanes(tissue.Keep, one.State);
        var outputsB = new OnePoleLanes(tissue.Keep, two.State);
        var beforeA = Vector256.Create(one.Gain * tissue.Before);
        var fromA = Vector256.Create(one.Gain * tissue.From);
        var atA = Vector256.Create(one.Gain * tissue.To);
        var afterA = Vector256.Create(one.Gain * tissue.After);
        var beforeB = Vector256.Create(two.Gain * tissue.Before);
        var fromB = Vector256.Create(two.Gain * tissue.From);
        var atB = Vector256.Create(two.Gain * tissue.To);
        var afterB = Vector256.Create(two.Gain * tissue.After);
        nuint count = (nuint)target.Length;
        for (nuint i = 0; i < count; i += 4)
        {
            Vector256<double> d = ((Vector256.LoadUnsafe(ref a, i) * beforeA) + (Vector256.LoadUnsafe(ref a, i + 1) * fromA))
                + ((Vector256.LoadUnsafe(ref a, i + 2) * atA) + (Vector256.LoadUnsafe(ref a, i + 3) * afterA));
            Vector256<double> e = ((Vector256.LoadUnsafe(ref b, i) * beforeB) + (Vector256.LoadUnsafe(ref b, i + 1) * fromB))
                + ((Vector256.LoadUnsafe(ref b, i + 2) * atB) + (Vector256.LoadUnsafe(ref b, i + 3) * afterB));
            outputsA.Next(d).StoreUnsafe(ref toA, i);
            outputsB.Next(e).StoreUnsafe(ref toB, i);
        }
    }

    // What drives a path from a sample of a block on: the weighted sum of the axes, or what was drawn along their direction.
    private void Drive(int path, long block, int from, Span<double> drive)
    {
        if (path != 0)
        {
            _movement.Block(block, MovementGrid.Beside).Slice(from, drive.Length).CopyTo(drive);
            return;
        }

        ReadOnlySpan<double> x = _movement.Block(block, 0).Slice(from, drive.Length);
        ReadOnlySpan<double> y = _movement.Block(block, 1).Slice(from, drive.Length);
        ReadOnlySpan<double> z = _movement.Block(block, 2).Slice(from, drive.Length);
        y = y[..x.Length];
        z = z[..x.Length];
        ref double xs = ref MemoryMarshal.GetReference(x);
        ref double ys = ref MemoryMarshal.GetReference(y);
        ref double zs = ref MemoryMarshal.GetReference(z);
        ref double drives = ref MemoryMarshal.GetReference(drive);
        Axes shares = _shares;
        int i = 0;
        for (; i + 4 <= drive.Length; i += 4)
        {
            nuint at = (nuint)i;
            (((Vector256.LoadUnsafe(ref xs, at) * shares.X) + (Vector256.LoadUnsafe(ref zs, at) * shares.Z))
                + (Vector256.LoadUnsafe(ref ys, at) * shares.Y)).StoreUnsafe(ref drives, at);
        }

        for (; i < drive.Length; i++)
        {
            drive[i] = Driven(_shares, x[i], y[i], z[i]);
        }
    }

    // One movement's way through the tissue: its drive, and the latest blocks of its artefact of rms 1.
    private sealed class Path(double gain, int capacity)
    {
        // Made with the first block: most slots share those of another.
        private double[][]? _blocks;
        private double[]? _drive;

        public double Gain { get; } = gain;

        public double[] Drive => _drive ??= new double[capacity + 3];

        public double State { get; set; }

        public double[] Block(long block) => (_blocks ??= NewBlocks())[block & (MovementGrid.Kept - 1)];

        public void CopyFrom(Path other)
        {
            _blocks = other._blocks is null ? null : [.. other._blocks.Select(b => (double[])b.Clone())];
            State = other.State;
        }

        private double[][] NewBlocks() => [.. Enumerable.Range(0, MovementGrid.Kept).Select(_ => new double[capacity])];
    }
}
